"""Words for how a pool grew from year to year."""

from collections.abc import Sequence

from evsyn.pooling.answer import PoolAnswer, Row
from evsyn.pooling.over_time import UpTo
from evsyn.pooling.result import Status
from evsyn.wording.numbers import cell, count, counted, percent

HEADINGS = ("Up to", "New", "Studies", "Count", "As most papers pool, %", "Read this, %")
NO_YEAR = "no year"
NOTHING = "Nothing is pooled here, so nothing can have grown."
KEY = (
    "Each line holds all studies of the lines above it, so the lines are not independent; a change "
    "may be chance, other devices, other patients or other ways of counting. Papers of one year "
    "come in together. A study that gives way to another for shared patients stays out of every "
    "line, also of those before the other was printed."
)


def over_time_heading(label: str, group: str) -> str:
    """Say what is asked."""
    return f"{label}, {group}: how the pool grew"


def over_time_sentence(steps: Sequence[UpTo]) -> str:
    """Say where the row to read began, and since when it has stayed close to where it is now.

    Parameters
    ----------
    steps : sequence of UpTo
        In the order of years.
    """
    read = [
        (step, step.pooled.answer.reading.pooled.estimate)
        for step in steps
        if step.pooled.answer.reading is not None
    ]
    if not read:
        return NOTHING
    # From five studies on, where there are so many: three or four say next to nothing.
    read = [pair for pair in read if pair[0].pooled.answer.show.verdict] or read
    (first, began), (_, now) = read[0], read[-1]
    studies = counted(first.pooled.answer.k, "study", "studies")
    said = (
        f"With the papers up to {_year(first)} ({studies}) the row to read was {percent(began)}; "
        f"with all it is {percent(now)}."
    )
    settled = read[-1][0]
    for step, value in reversed(read):
        if abs(value - now) >= 0.01:
            break
        settled = step
    if settled is read[0][0]:
        return f"{said} It was never a point or more away from that."
    return f"{said} Since {_year(settled)} it has stayed within one point of that."


def over_time_row(step: UpTo) -> tuple[str, ...]:
    """Return the cells of one year."""
    answer = step.pooled.answer
    return (
        _year(step),
        f"{len(step.new)}",
        f"{answer.k}",
        count(sum(answer.events), sum(answer.total)),
        _headline(answer),
        _reading(answer),
    )


def _year(step: UpTo) -> str:
    return NO_YEAR if step.year is None else f"{step.year}"


def _headline(answer: PoolAnswer) -> str:
    row = answer.rows.get(Row.HEADLINE)
    if row is None or row.status is not Status.POOLED:
        return "not pooled"
    return cell(row.estimate, row.low, row.high)


def _reading(answer: PoolAnswer) -> str:
    if answer.reading is None:
        return "none"
    row = answer.reading.pooled
    return cell(row.estimate, row.low, row.high)
