"""Words for what a new paper moves."""

from evsyn.pooling.answer import PoolAnswer, Show
from evsyn.wording.numbers import cell, count, counted, limits

BEFORE, AFTER = "before", "with it"
HEADINGS = ("", "", "Studies", "Count", "Read this, %", "New setting, %")
ENTERS_NOTHING = (
    "{label} enters no pool: none of its counts is of an outcome, denominator and window that the "
    "plan accepts, or it shares patients with a study that is pooled. See evsyn trace."
)
#: What the columns hold, and why they are shown only after the paper is in.
BELOW = (
    "In brackets: {level:.0%} intervals of the row to read. New setting: {level:.0%} range for an "
    "ordinary new setting. A paper is taken in by the plan, and never for what it moves."
)


def moved_heading(label: str) -> str:
    """Say what stands below."""
    return f"What {label} moves"


def pool_cells(answer: PoolAnswer) -> tuple[str, str, str, str]:
    """Return number of studies, count, the row to read and its range, for a table in per cent."""
    k, none = f"{answer.k}", "none"
    if answer.show in (Show.NOTHING, Show.REFUSED):
        return k, "not pooled" if answer.k else "no data", none, none
    counted_as = count(sum(answer.events), sum(answer.total))
    if answer.reading is None:
        return k, counted_as, none, none
    row = answer.reading.pooled
    ranged = answer.show.verdict
    return (
        k,
        counted_as,
        cell(row.estimate, row.low, row.high),
        limits(row.prediction_low, row.prediction_high) if ranged else none,
    )


def stay(number: int) -> str:
    """Say how many answers of an outcome did not change."""
    return f"{counted(number, 'other answer stays', 'other answers stay')} as before."
