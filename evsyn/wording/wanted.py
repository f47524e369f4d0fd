"""What was wanted of the counts, and what was found: denominator and window in words."""

from collections.abc import Sequence

from evsyn.cells.cell import Cell
from evsyn.extraction.plan import Plan
from evsyn.terms import AS_PRINTED, NOT_STATED
from evsyn.wording.numbers import counted


def wanted_and_found(plan: Plan, outcome: str, cells: Sequence[Cell]) -> str:
    """Say which denominator and window the plan wants, and how many counts have them.

    Parameters
    ----------
    plan : Plan
        The plan.
    outcome : str
        An outcome of it.
    cells : sequence of Cell
        The counts over all studies.
    """
    words = plan.outcomes[outcome]
    basis = words.denominators[0]
    over = plan.denominators[basis]
    wanted, found = f"Wanted: of {over}", []
    k = len(cells)
    if words.windows:
        window = plan.windows[words.windows[0]].label
        wanted += f", {window}"
        has = sum(cell.window == words.windows[0] for cell in cells)
        unstated = sum(cell.window == NOT_STATED for cell in cells)
        found.append(f"{has} of {counted(k, 'count', 'counts')} {window}{_unstated(unstated)}")
    has = sum(cell.basis == basis for cell in cells)
    unstated = sum(cell.basis == AS_PRINTED for cell in cells)
    of = f"{k}" if found else counted(k, "count", "counts")
    found.append(f"{has} of {of} over {over}{_unstated(unstated)}")
    return f"{wanted}. Found: {', '.join(found)}." if cells else f"{wanted}."


def _unstated(number: int) -> str:
    return f" ({number} not stated)" if number else ""
