"""What unknown outcomes and unknown follow-up leave open, in words."""

from evsyn.audit.extremes import Extreme
from evsyn.audit.standing import Standing
from evsyn.audit.verdict import Verdict
from evsyn.wording.numbers import count, counted, percent, span
from evsyn.wording.verdict import VERDICT_WORDS

NO_FOLLOW_UP = (
    "No share and no comparison: such events go on coming as long as cases are followed, and the "
    "file does not say in numbers how long that was. Give 'followed' with 'median_months'."
)


def unknown_sentence(standing: Standing) -> str:
    """Say what the count would be at its best and at its worst; empty where all is known."""
    found = standing.extremes
    if found is None:
        return ""
    cases = counted(standing.unknown, "further case has", "further cases have")
    said = f"{cases} no known outcome: at best {_told(found.best)}; at worst {_told(found.worst)}"
    if found.best.verdict is found.worst.verdict:
        return f"{said}."
    return f"{said}. What is not known could change the verdict, so find it out first."


def _told(at: Extreme) -> str:
    limits = span(at.interval.low, at.interval.high)
    said = f"{count(at.events, at.total)} ({percent(at.events / at.total)}; {limits})"
    return said if at.verdict is Verdict.NONE else f"{said}, {VERDICT_WORDS[at.verdict]}"
