"""What is said to someone who has typed ``evsyn`` and no more, or a verb that does not exist."""

#: What people do first, and the command for it.
FIRST_STEPS = (
    ("See what it does, on an invented review", "demo"),
    ("Put a paper of your own in", "add FOLDER"),
    ("Learn whether a folder of papers is in order", "check FOLDER"),
    ("Ask what the papers say, with every study behind it", "pool FOLDER OUTCOME"),
    ("See where your own unit stands", "audit UNIT.yaml --against FOLDER --for inside"),
)
_WHERE = """\
A page, slides or a card to take away: {program} report FOLDER --as page
Every line behind a number: {program} trace FOLDER OUTCOME
All verbs: {program} --help
One verb, with an example: {program} pool --help

What there is to read begins at docs/README.md in the folder evsyn came in, with
a tutorial of ten minutes."""


def first_steps(program: str) -> str:
    """Say the five things people do first, with the command for each, and where to go.

    Parameters
    ----------
    program : str
        How the command line was started: ``evsyn`` or ``python -m evsyn``.
    """
    said = ["evsyn pools published counts one can trace, and places a unit's own figures.", ""]
    for what, verb in FIRST_STEPS:
        said += [f"{what}:", f"    {program} {verb}"]
    return "\n".join([*said, "", _WHERE.format(program=program)])


def no_such_verb(word: str, offer: str) -> str:
    """Say that a verb does not exist, and offer another."""
    return f"There is no verb '{word}'. {offer}"


def no_such_word(word: str, before: str, offer: str) -> str:
    """Say that a verb of several words has no such word, and offer another."""
    return f"There is no '{before} {word}'. {offer}"


def verb_is_missing(path: str, verb: str) -> str:
    """Say that a path stands where a verb should, and offer one for it."""
    return f"'{path}' is a place and not a verb. To learn whether it is in order: {verb} {path}"
