"""What was wanted of the counts, and what was found: denominator and window in words."""

from evsyn.cells.cell import CellTable
from evsyn.extraction.plan import Plan
from evsyn.terms import AS_PRINTED, NOT_STATED


def wanted_sentence(plan: Plan, table: CellTable) -> str:
    """Say how many counts have the denominator and window the plan wants; empty without a count.

    Parameters
    ----------
    plan : Plan
        The plan.
    table : CellTable
        The counts of one pool.
    """
    if not table.k:
        return ""
    outcome = plan.outcomes[table.question.outcome]
    basis = outcome.denominators[0]
    bases = [cell.basis for cell in table.cells]
    said = [
        f"{bases.count(basis)} of {table.k} counts are over {plan.denominators[basis]}"
        f"{_unstated(bases.count(AS_PRINTED))}"
    ]
    if outcome.windows:
        window = outcome.windows[0]
        windows = [cell.window for cell in table.cells]
        label = plan.windows[window].label
        said.append(f"{windows.count(window)} {label}{_unstated(windows.count(NOT_STATED))}")
    return f"As wanted: {', '.join(said)}."


def _unstated(number: int) -> str:
    return f" ({number} do not say)" if number else ""
