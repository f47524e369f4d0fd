"""Every scale goes there and back, rises, and keeps its name."""

import numpy as np
import pytest
from scipy import stats

from evsyn.effects.scales import LOGIT, SCALES

PROPORTIONS = np.array([1e-12, 1e-6, 0.003, 0.25, 0.5, 0.9, 1 - 1e-9])


@pytest.mark.parametrize("scale", SCALES.values(), ids=SCALES)
def test_there_and_back(scale):
    assert scale.back(scale.forward(PROPORTIONS)) == pytest.approx(PROPORTIONS, rel=1e-12)


@pytest.mark.parametrize("scale", SCALES.values(), ids=SCALES)
def test_rises(scale):
    assert np.all(np.diff(scale.forward(PROPORTIONS)) > 0)


def test_registry_is_keyed_by_name():
    assert all(name == scale.name for name, scale in SCALES.items())


def test_logit_is_the_logistic_quantile():
    assert LOGIT.forward(PROPORTIONS) == pytest.approx(stats.logistic.ppf(PROPORTIONS), rel=1e-12)
