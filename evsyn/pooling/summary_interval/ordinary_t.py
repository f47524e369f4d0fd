"""The model's standard error with the t distribution on k - 1 degrees of freedom."""

from scipy import special

from evsyn.effects.arguments import Floats
from evsyn.pooling.studies import WeightedMean
from evsyn.pooling.summary_interval.result import HalfWidth, without_floor


def ordinary_t(at: WeightedMean, k: Floats, level: float) -> HalfWidth:
    """Return ``t(k - 1) * se``, as in Follmann DA, Proschan MA. Biometrics 1999;55:732-737."""
    return without_floor(special.stdtrit(k - 1, (1 + level) / 2) * at.se)
