"""The ordinary interval: the model's standard error and the normal distribution."""

from scipy import special

from evsyn.effects.arguments import Floats
from evsyn.pooling.studies import WeightedMean
from evsyn.pooling.summary_interval.result import HalfWidth, without_floor


def ordinary(at: WeightedMean, k: Floats, level: float) -> HalfWidth:
    """Return ``z * se``, as in DerSimonian R, Laird N. Control Clin Trials 1986;7:177-188."""
    return without_floor(special.ndtri((1 + level) / 2) * at.se)
