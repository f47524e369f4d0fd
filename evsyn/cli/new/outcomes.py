"""Ask for the outcomes of a plan."""

from collections.abc import Sequence
from typing import Any

from evsyn.cli.new.asking import Asker, Given


def outcomes_of(asker: Asker, plan: Given, given: Sequence[str]) -> Given:
    """Return the outcomes of a plan, one at least, in the words it has for totals and times.

    Parameters
    ----------
    asker : Asker
        Where answers come from.
    plan : dict
        What the plan holds so far: its denominators and windows.
    given : sequence of str
        The outcomes that options give, each in one line.
    """
    from evsyn.extraction.starting import answers, plan_parts
    from evsyn.wording import new_questions as say

    found: Given = {}
    for name, one in asker.each("--outcome", given, plan_parts.outcome):
        bases, windows = answers.several(list(plan["denominators"])), list(plan["windows"])
        found[name] = {
            **one,
            "denominators": asker.read("--outcome", one["denominators"], bases),
            "windows": asker.read("--outcome", one["windows"], answers.several(windows)),
        }
    if found or not asker.asks:
        if not given:
            asker.missing("--outcome", say.OUTCOME_MISSING)
        return found
    while True:
        label = asker.one(
            say.ANOTHER_OUTCOME + say.NO_MORE if found else say.OUTCOME_LABEL,
            "--outcome",
            None,
            answers.or_no_more(answers.label) if found else answers.label,
            needed=not found,
        )
        if label is None:
            return found
        name = asker.one(
            say.OUTCOME_NAME,
            "--outcome",
            None,
            answers.unlike(list(found)),
            default=(answers.short(label) or "outcome").replace("-", "_"),
        )
        asker.about = name
        found[name] = _outcome(asker, plan, label)
        asker.about = ""


def _outcome(asker: Asker, plan: Given, label: str) -> Given:
    from evsyn.extraction.starting import answers
    from evsyn.wording import new_questions as say

    labels = {name: window["label"] for name, window in plan["windows"].items()}
    event = asker.one(
        say.EVENT, "--outcome", None, answers.text, default=label[0].lower() + label[1:]
    )
    made: dict[str, Any] = {
        "label": label,
        "event": event,
        "events": asker.one(say.EVENTS, "--outcome", None, answers.text),
        "better": asker.choice(say.BETTER, "--outcome", None, say.BETTER_WORDS),
        "definition": asker.optional(say.DEFINITION, "--outcome", None, answers.text),
        "denominators": asker.choice(
            say.OUTCOME_OF, "--outcome", None, plan["denominators"], several=True
        ),
        "windows": asker.choice(say.OUTCOME_WINDOWS, "--outcome", None, labels, several=True),
    }
    return {key: value for key, value in made.items() if value is not None}
