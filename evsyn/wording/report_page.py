"""The sentences of the report page that stand nowhere else."""

from collections.abc import Sequence

from evsyn.wording.numbers import counted

SKIP = "Skip to the answer"
CONTENTS = "On this page"

#: Headings of the sections, in order.
QUESTION = "The question"
ANSWER = "The answer"
OUTCOMES = "Each outcome"
EVIDENCE = "The evidence, count by count"
LEFT_OUT = "What was left out, and why"
DOUBTS = "Doubts"
METHODS = "How the numbers were made"
REFERENCES = "References"
UNSAID = "What the evidence cannot say"
CAUTIONS = "Cautions"
PLACE = "Try your own figures"
UNIT_INSIDE = "Our own figures"
UNIT_OUTSIDE = "A unit's figures"
DISPUTED = "What if a count were disputed?"
COMPARED = "Two treatments compared within studies"

ANSWER_HEADINGS = (
    "Studies",
    "Count",
    "As most papers pool, %",
    "Read this, %",
    "A new setting, %",
)
ALL_STUDIES = "All studies"
NO_RANGE = "none given"
ANSWER_READ = (
    "Quote the column 'Read this', with its 95% interval. Where it says 'too wide to quote', the "
    "studies leave more than half of all rates open: there is no number to quote. 'As most papers "
    "pool' is the same pool made in the way most papers make theirs: for comparing with them, and "
    "not to be quoted. 'A new setting' is the range in which 95% of ordinary new settings lie; it "
    "is given where there are five studies or more. Levels need not add up to the whole: some "
    "studies mix them, or do not state them."
)
OUTCOME = "Outcome"
LEVEL = "Level"
BY_LEVEL = "The same by kind of case, for each outcome"
IN_SENTENCES = "The same, level by level, in sentences"
BACK = "Back to the contents"


def by_stratum(stratum: str) -> str:
    """Head the levels of one stratum."""
    return f"By {stratum[:1].lower()}{stratum[1:]}"


def unit_link(unit: str) -> str:
    """Lead from the answer to the section of the unit's own figures."""
    return f"{unit}: its figures follow the answer."


def other_plot(stratum: str) -> str:
    """Head a forest plot in another division than the one that stands first."""
    return f"The forest plot by {stratum[:1].lower()}{stratum[1:]}"


def levels_differ(outcome: str, stratum: str, said: str) -> str:
    """Say of one outcome whether the levels of a stratum differ.

    Parameters
    ----------
    outcome, stratum : str
        Their labels.
    said : str
        The difference in short, as a sentence.
    """
    return f"{outcome}, by {stratum.lower()}: {said[:1].lower()}{said[1:]}"


def doubts_beside(number: int) -> str:
    """Say that open doubts stand behind the numbers; empty where there are none."""
    if not number:
        return ""
    doubts = "1 open doubt stands" if number == 1 else f"{number} open doubts stand"
    return f"{doubts} behind these numbers: see Doubts below."


EVIDENCE_HEADINGS = (
    "Study",
    "Outcome",
    "Pooled under",
    "Count",
    "Denominator",
    "Window",
    "Place in the paper",
    "Marks",
)
LEFT_OUT_HEADINGS = ("Study", "Outcome", "Not pooled under", "Count", "Why", "Place in the paper")
OPEN = "open"

NOT_STATED = "not stated"
NO_PLACE = "place not given"
NOTHING_LEFT_OUT = "No count that reports an outcome was left out."
NO_DOUBTS = "The checks raised no doubt."

FIGURE_HELP = (
    "Figures: hover over a row, or reach it with the Tab and arrow keys, to see where its numbers "
    "stand in the paper; a click or the Enter key leads to its row in the table of evidence, and "
    "the outcome there leads back."
)
NOT_DRAWN = (
    "Not drawn here, so that the page stays small; every count stands in the table of evidence."
)

#: What no page of pooled shares can tell, whatever its studies.
NEVER_TOLD = (
    "Whether another treatment would have done better: a share of one treatment compares nothing.",
    "Whether a difference between levels comes from the level: other things differ between the "
    "studies too, and they were not drawn by lot.",
    "What is acceptable: no pass mark is given here, and none is implied by a pooled value.",
    "What will happen to one patient: a pooled value is of settings, not of persons.",
)

PLACE_INTRO = (
    "Type how many cases you had and in how many of them the event was seen. Your browser places "
    "the count among ordinary new units, by the same numbers as the rest of the page; nothing you "
    "type leaves it or is kept."
)
PLACE_WITHOUT_SCRIPT = (
    "This part needs scripts, and they are off in this browser. The command 'evsyn audit' says the "
    "same, and more, of a unit's own figures."
)
PLACE_WHICH = (
    "Choose the kind of case you had: the verdict depends on it. A count of all your cases has a "
    "range here and no verdict, since case mix matters; 'evsyn audit' sets a whole against its own "
    "case mix. It also leaves out your own series, which here stands in the pool."
)
PLACE_NOTHING = "No level of any outcome can be compared with."
LABEL_OUTCOME = "Outcome"
LABEL_LEVEL = "Your cases"
LABEL_CASES = "Number of cases"
LABEL_EVENTS = "With the event"
BUTTON_PLACE = "Place this count"

FILTER_LABEL = "Show only rows with"
FILTER_OUTCOME = "Outcome"
FILTER_ALL = "all outcomes"

#: How long a late event was looked for decides how many there are.
OPEN_WINDOW = (
    "No comparison: such events go on coming as long as cases are followed, so a share means "
    "little without how long that was. 'evsyn audit' takes the follow-up into account."
)


def defined(definition: str | None) -> str:
    """Say what counts as an outcome; empty where the plan does not."""
    return f"What is counted: {definition.rstrip('.')}." if definition else ""


def counted_as(basis: str, window: str) -> str:
    """Say of whom, and in what window, a count must be to be placed."""
    when = f", {window}" if window else ""
    return f"Count as the plan does: of {basis}{when}."


def compared_headings(first: str, second: str, contrast: str) -> tuple[str, ...]:
    """Return the headings of a table of two treatments."""
    return ("Study", first, second, contrast, "Place in the paper", "Marks")


def table_of(number: int) -> str:
    """Head a table that can be folded away."""
    return f"The table: {counted(number, 'row', 'rows')}"


def list_of(number: int) -> str:
    """Head a list of studies that can be folded away."""
    return f"The list: {counted(number, 'study', 'studies')}"


def rows_shown(number: int) -> str:
    """Say how many rows a table holds."""
    return f"{counted(number, 'row', 'rows')}."


def cannot_compare(stratum: str, outcomes: Sequence[str]) -> str:
    """Say for which outcomes levels cannot be compared; empty for none.

    Parameters
    ----------
    stratum : str
        The stratum's name for headings.
    outcomes : sequence of str
        Their labels, as inside a sentence.
    """
    if not outcomes:
        return ""
    return (
        f"{stratum} cannot be compared from these papers for {_listed(outcomes)}: that needs three "
        "studies at each of two levels."
    )


def few_studies(outcomes: Sequence[str]) -> str:
    """Say for which outcomes no range and no verdict can be given; empty for none."""
    if not outcomes:
        return ""
    return f"How far settings differ in {_listed(outcomes)}: fewer than five studies can be pooled."


def not_pooled(outcome: str, why: str) -> str:
    """Say that the plan does not pool an outcome, and why."""
    why = why.rstrip(".")
    return f"One pooled number for {outcome}. {why[:1].upper()}{why[1:]}."


def do_not_say(outcome: str) -> str:
    """Head the sentences that go further than the studies; the pocket card has the same."""
    return f"Not to be said of {outcome}"


def never_said(question: str, never: str) -> str:
    """Say after a question what is not to be answered to it, and why."""
    return f"{question} Not: {never}"


def read_in_part(part: int, whole: int) -> str:
    """Say how many studies were not read in full; empty for none."""
    if not part:
        return ""
    return (
        f"What stands further down in {part:,} of {counted(whole, 'paper', 'papers')}, which were "
        "read from the abstract or second hand."
    )


NO_SEARCH = (
    "What other papers hold: these were chosen, not searched for, so how they were chosen may "
    "have moved every number."
)


def _listed(words: Sequence[str]) -> str:
    if len(words) == 1:
        return words[0]
    return f"{', '.join(words[:-1])} and {words[-1]}"
