"""Which strata of an outcome are worth showing first: those whose levels can be compared."""

from evsyn.cells.levels import labelled_strata
from evsyn.extraction.plan import Plan
from evsyn.pooling.difference import LEAST_LEVELS
from evsyn.pooling.strata_test import LEAST_STUDIES
from evsyn.reporting.report.content import OutcomeReport, StratumReport
from evsyn.terms import UNPLACED


def foremost_strata(item: OutcomeReport, plan: Plan) -> tuple[StratumReport, ...]:
    """Return the strata that papers state for an outcome, the most telling first.

    A stratum whose levels can be compared goes before one whose levels cannot, then the one with
    more studies at levels with names; equal ones keep the plan's order.

    Parameters
    ----------
    item : OutcomeReport
        The outcome.
    plan : Plan
        The review's plan.

    Returns
    -------
    tuple of StratumReport
        Labelled strata with a study at a named level; empty where there is none.
    """
    labelled = labelled_strata(plan)
    stated = [one for one in item.strata if one.name in labelled and any(_named(one))]
    return tuple(sorted(stated, key=_comparable, reverse=True))


def _named(stratum: StratumReport) -> list[int]:
    """Return the number of studies at each level with a name."""
    return [one.pooled.answer.k for one in stratum.answers if one.question.level != UNPLACED]


def _comparable(stratum: StratumReport) -> tuple[bool, int]:
    numbers = _named(stratum)
    return sum(k >= LEAST_STUDIES for k in numbers) >= LEAST_LEVELS, sum(numbers)
