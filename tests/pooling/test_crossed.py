"""Two strata in one model, against a general library."""

import numpy as np
import pytest
import statsmodels.api as sm
from scipy.stats import f as f_distribution

from evsyn.cells.cell import Cell
from evsyn.pooling.crossed import NoCrossing, crossed_model


def cells(name, *counts):
    return tuple(
        Cell(f"{name}{n}", name, None, x, total, "of", "in", frozenset(), ())
        for n, (x, total) in enumerate(counts)
    )


# Counts nearly alike inside each crossing, so that no spread between studies is seen.
HELD = {
    ("old", "near"): cells("a", (20, 100), (21, 100), (19, 100)),
    ("old", "far"): cells("b", (30, 100), (29, 100), (31, 100)),
    ("new", "near"): cells("c", (15, 100), (16, 101), (14, 99)),
    ("new", "far"): cells("d", (12, 100), (13, 100), (12, 98)),
}


def logistic(held, columns):
    rows = [(crossing, cell) for crossing, listed in held.items() for cell in listed]
    x = np.array([[1.0, *columns(*crossing)] for crossing, _ in rows])
    y = np.array([[cell.events, cell.total - cell.events] for _, cell in rows])
    return sm.GLM(y, x, family=sm.families.Binomial()).fit()


def main(one, two):
    return (one == "new", two == "far")


def both(one, two):
    return (*main(one, two), one == "new" and two == "far")


def test_without_spread_it_is_logistic_regression():
    """Statsmodels GLM: with no spread the exact model is an ordinary logistic regression."""
    found = crossed_model(HELD)
    plain, full = logistic(HELD, main), logistic(HELD, both)
    assert found.main.exact.tau2 == 0
    assert found.terms == ((0, "new", "old"), (1, "far", "near"))
    values = [one.estimate for one in found.main.exact.coefficients]
    assert values == pytest.approx(plain.params, abs=1e-6)
    ratio = plain.deviance - full.deviance
    assert found.interaction.statistic == pytest.approx(ratio, rel=1e-6)
    assert (found.interaction.df1, found.interaction.df2) == (1, 8)
    assert found.interaction.p == pytest.approx(f_distribution.sf(ratio, 1, 8), rel=1e-6)
    assert found.tests == 3


def test_a_short_crossing_takes_no_part_and_is_named():
    held = HELD | {("third", "near"): cells("e", (1, 9), (2, 9))}
    found = crossed_model(held)
    assert found.short == (("third", "near"),)
    assert found.interaction == crossed_model(HELD).interaction


def test_without_the_fourth_crossing_no_interaction_can_be_told():
    held = HELD | {("new", "far"): HELD["new", "far"][:2]}
    found = crossed_model(held)
    assert (found.interaction, found.reason) == (None, NoCrossing.NOTHING_LEFT)
    assert len(found.main.exact.coefficients) == 3


@pytest.mark.parametrize(
    ("kept", "reason"),
    [
        ([("old", "near"), ("old", "far")], NoCrossing.TOO_FEW),
        ([("old", "near"), ("new", "far")], NoCrossing.APART),
        ([], NoCrossing.TOO_FEW),
    ],
)
def test_where_strata_cannot_be_told_apart_there_is_no_model(kept, reason):
    found = crossed_model({crossing: HELD[crossing] for crossing in kept})
    assert (found.main, found.reason, found.tests) == (None, reason, 0)


def test_what_the_plan_forbids_is_not_modelled():
    assert crossed_model(HELD, refused=True).reason is NoCrossing.BY_PLAN
