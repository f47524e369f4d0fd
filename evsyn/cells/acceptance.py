"""Whether the plan accepts a count, and what must be said of it."""

from dataclasses import dataclass

from evsyn.cells.cell import Mark
from evsyn.extraction.plan import Plan
from evsyn.extraction.study import Arm, Count
from evsyn.terms import AS_PRINTED, NOT_STATED, CountedBy


@dataclass(frozen=True, slots=True)
class Accepted:
    """A count that may be pooled, with its marks and its nearness to the plan's target."""

    arm: Arm
    count: Count
    marks: frozenset[Mark]
    rank: tuple[int, int]


@dataclass(frozen=True, slots=True)
class Refused:
    """A count that may not, with the reason."""

    arm: Arm
    count: Count
    reason: str


def judge(arm: Arm, outcome: str, plan: Plan) -> Accepted | Refused:
    """Judge one count of an arm by the plan's bases, windows and unit of counting.

    Parameters
    ----------
    arm : Arm
        An arm that reports the outcome.
    outcome : str
        The outcome, by its name in the plan.
    plan : Plan
        The plan.
    """
    count = arm.outcomes[outcome]
    wanted = plan.outcomes[outcome]
    basis = _rank(count.of, wanted.denominators, AS_PRINTED)
    if basis is None:
        words = plan.denominators.get(count.of, count.of)
        return Refused(arm, count, f"counted over {words}, which the plan does not accept")
    window = _rank(count.window, wanted.windows, NOT_STATED)
    if window is None:
        words = plan.windows[count.window].label
        return Refused(arm, count, f"counted {words}, a window the plan does not accept")
    crowded = _crowded(arm, count, plan)
    if crowded:
        return Refused(arm, count, crowded)
    signs = {
        Mark.BASIS_NOT_STATED: count.of == AS_PRINTED,
        Mark.OTHER_BASIS: basis > 0 and count.of != AS_PRINTED,
        Mark.WINDOW_NOT_STATED: count.window == NOT_STATED and bool(wanted.windows),
        Mark.OTHER_WINDOW: window > 0 and count.window != NOT_STATED,
        Mark.PER_PROCEDURE: count.counted_by is not CountedBy.PATIENT,
        Mark.ASSUMED: count.assumed,
        Mark.DERIVED: count.derived is not None,
        Mark.SECOND_HAND: count.second_hand,
    }
    return Accepted(arm, count, frozenset(m for m, on in signs.items() if on), (basis, window))


def _rank(word: str, accepted: list[str], unstated: str) -> int | None:
    """Return the place in the plan's list, unstated after the last; ``None`` if not accepted."""
    if word == unstated:
        return len(accepted)
    return accepted.index(word) if word in accepted else None


def _crowded(arm: Arm, count: Count, plan: Plan) -> str:
    """Say why a per-procedure count is too far from a per-patient one; empty if it is not."""
    if count.counted_by is CountedBy.PATIENT:
        return ""
    most = plan.pooling.procedures_per_patient
    procedures = max(count.total, arm.procedures or 0)
    if procedures / arm.patients <= most + 1e-9:
        return ""
    return (
        f"counted over {procedures} {count.counted_by}s in {arm.patients} patients, "
        f"more than {most:g} a patient"
    )
