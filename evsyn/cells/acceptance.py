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
    marks: set[Mark] = set()
    if count.of == AS_PRINTED:
        basis_rank = len(wanted.denominators)
        marks.add(Mark.BASIS_NOT_STATED)
    elif count.of in wanted.denominators:
        basis_rank = wanted.denominators.index(count.of)
        if basis_rank:
            marks.add(Mark.OTHER_BASIS)
    else:
        words = plan.denominators.get(count.of, count.of)
        return Refused(arm, count, f"counted over {words}, which the plan does not accept")
    if not wanted.windows or count.window == NOT_STATED:
        window_rank = len(wanted.windows)
        if wanted.windows:
            marks.add(Mark.WINDOW_NOT_STATED)
    elif count.window in wanted.windows:
        window_rank = wanted.windows.index(count.window)
        if window_rank:
            marks.add(Mark.OTHER_WINDOW)
    else:
        words = plan.windows[count.window].label
        return Refused(arm, count, f"counted {words}, a window the plan does not accept")
    if count.counted_by is not CountedBy.PATIENT:
        marks.add(Mark.PER_PROCEDURE)
        most = plan.pooling.procedures_per_patient
        procedures = count.total if arm.procedures is None else arm.procedures
        if procedures / arm.patients > most + 1e-9:
            return Refused(
                arm,
                count,
                f"counted over {procedures} {count.counted_by}s in {arm.patients} patients, "
                f"more than {most:g} a patient",
            )
    if count.assumed:
        marks.add(Mark.ASSUMED)
    if count.derived is not None:
        marks.add(Mark.DERIVED)
    return Accepted(arm, count, frozenset(marks), (basis_rank, window_rank))
