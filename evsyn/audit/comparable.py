"""Whether a unit's count and a pool's are of the same thing, and what may then be said."""

from collections import Counter
from dataclasses import dataclass
from enum import StrEnum

from evsyn.cells.cell import CellTable
from evsyn.extraction.plan import Plan
from evsyn.terms import AS_PRINTED, NOT_STATED, Better


class Differs(StrEnum):
    """How the unit's denominator or window differs from the pool's."""

    BASIS = "basis_differs"
    BASES_MIXED = "bases_mixed"
    BASES_NOT_STATED = "bases_not_stated"
    WINDOWS = "windows_differ"
    WINDOW_SHORTER = "window_shorter"
    WINDOW_LONGER = "window_longer"
    WINDOW_OF_SUCCESS = "window_of_success_differs"
    WINDOW_OPEN = "window_open"


@dataclass(frozen=True, slots=True)
class Comparable:
    """Which comparison may be made.

    Parameters
    ----------
    differs : tuple of Differs
        What differs, or is not known to be the same.
    more, fewer : bool
        Which verdicts may be said.
    """

    differs: tuple[Differs, ...]
    more: bool = True
    fewer: bool = True

    @property
    def at_all(self) -> bool:
        """Whether the counts may be compared."""
        return Differs.BASIS not in self.differs


def comparable(basis: str, window: str, table: CellTable, plan: Plan) -> Comparable:
    """Judge whether a unit's count may be compared with a pool.

    Parameters
    ----------
    basis, window : str
        Denominator basis and window of the unit's count.
    table : CellTable
        The studies of the pool.
    plan : Plan
        The plan, for the lengths of its windows.

    Notes
    -----
    A count over a shorter time misses events, so it can be shown to be high but not low; over a
    longer time, the reverse. That holds for events that add up, as harms do; a success may be lost
    again, so there a different window allows neither.
    """
    of_basis = _bases(basis, table)
    of_window, more, fewer = _windows(window, table, plan)
    return Comparable(of_basis + of_window, more, fewer)


def tally(words: list[str]) -> tuple[tuple[str, int], ...]:
    """Count words, the commonest first."""
    return tuple(Counter(words).most_common())


def _bases(basis: str, table: CellTable) -> tuple[Differs, ...]:
    found = {cell.basis for cell in table.cells}
    named = found - {AS_PRINTED}
    if named and basis not in named:
        return (Differs.BASIS,)
    mixed = (Differs.BASES_MIXED,) if named - {basis} else ()
    unstated = (Differs.BASES_NOT_STATED,) if AS_PRINTED in found else ()
    return mixed + unstated


def _windows(window: str, table: CellTable, plan: Plan) -> tuple[tuple[Differs, ...], bool, bool]:
    outcome = plan.outcomes[table.question.outcome]
    if not outcome.windows:
        return (), True, True
    found = {cell.window for cell in table.cells}
    if found == {window} and window != NOT_STATED:
        is_open = plan.windows[window].is_open
        return ((Differs.WINDOW_OPEN,) if is_open else ()), True, True
    ours = _days(window, plan)
    theirs = _days(next(iter(found)), plan) if len(found) == 1 else None
    if ours is None or theirs is None:
        return (Differs.WINDOWS,), True, True
    if outcome.better is Better.MORE:
        return (Differs.WINDOW_OF_SUCCESS,), False, False
    if ours < theirs:
        return (Differs.WINDOW_SHORTER,), True, False
    if ours > theirs:
        return (Differs.WINDOW_LONGER,), False, True
    return (), True, True


def _days(window: str, plan: Plan) -> int | None:
    return plan.windows[window].days if window in plan.windows else None
