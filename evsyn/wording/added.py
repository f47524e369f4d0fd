"""Words for what new papers move."""

from collections.abc import Iterable, Iterator, Sequence

from evsyn.extraction.plan import Plan
from evsyn.pooling.answer import PoolAnswer, Show
from evsyn.wording.numbers import cell, count, counted, limits

BEFORE, AFTER = "before", "with it"
HEADINGS = ("", "", "Studies", "Count", "Read this, %", "New setting, %")
NOTHING_MOVES = "No pooled answer moves."
#: What the columns hold, and why they are shown only after the paper is in.
_BELOW = (
    "In brackets: {level:.0%} intervals of the row to read. New setting: {level:.0%} range for an "
    "ordinary new setting. {taken}"
)
_ONE = "A paper is taken in by the plan, and never for what it moves."
_SEVERAL = "Papers are taken in by the plan, and never for what they move."


def below_moved(level: float, *, several: bool) -> str:
    """Say what stands in the tables of what moved, and why it is shown so late."""
    return _BELOW.format(level=level, taken=_SEVERAL if several else _ONE)


def enters_none(told: Sequence[str], label: str, events: int, total: int, reason: str) -> str:
    """Say of a count that it enters no pool, and why; ``told`` are its study and group."""
    whose = ", ".join([*told, label])
    why = reason or "no pool of the plan is of such a group, or a larger group holds its patients"
    return f"{whose}: {count(events, total)} enters no pool: {why}."


def by_plan(reason: str) -> str:
    """Say that the plan does not pool an outcome, and why; without a full stop."""
    return f"the plan does not pool this outcome ({reason.rstrip('.')})"


def why_none(answers: Iterable[PoolAnswer]) -> Iterator[str]:
    """Yield why some of the answers in a table lack a pooled value or a range."""
    lacks = {one.show for one in answers}
    if lacks & {Show.NOTHING, Show.ONE, Show.TWO}:
        yield "Fewer than three studies are not pooled: none to read."
    if lacks & {Show.ALL_ZERO, Show.ALL_FULL}:
        yield "Where no patient had it, or each one, there is no pooled value to read."
    if Show.FEW in lacks:
        yield "Fewer than five studies give no range for a new setting."


def not_pooled_over(plan: Plan, outcome: str, reason: str) -> str:
    """Say why a count that was just typed is kept and enters no pool."""
    wanted = plan.outcomes[outcome]
    told = [plan.denominators.get(one, one) for one in wanted.denominators]
    times = [plan.windows[one].label for one in wanted.windows]
    within = f"; looked for {' or '.join(times)}" if times else ""
    return (
        f"Not pooled: this count is {reason}. The plan pools {_inside(wanted.label)} over "
        f"{' or '.join(told)}{within}. The count is kept in the file."
    )


def moved_heading(labels: Sequence[str]) -> str:
    """Say what stands below."""
    if len(labels) == 1:
        return f"What {labels[0]} moves"
    return f"What {counted(len(labels), 'study moves', 'studies move')}"


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


def stay(number: int, label: str) -> str:
    """Say how many pools of an outcome did not change."""
    of = f"of {_inside(label)}"
    return f"{counted(number, f'other pool {of} stays', f'other pools {of} stay')} as before."


def _inside(label: str) -> str:
    """Return a label as it stands inside a sentence; an abbreviation such as R0 stays as it is."""
    return label if label[1:2].isupper() or label[1:2].isdigit() else label[0].lower() + label[1:]
