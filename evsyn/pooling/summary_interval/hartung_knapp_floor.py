"""The Hartung-Knapp interval that never uses a variance below the model's own."""

import numpy as np
from scipy import special

from evsyn.effects.arguments import Floats
from evsyn.pooling.studies import WeightedMean
from evsyn.pooling.summary_interval.result import HalfWidth

#: Paule and Mandel's estimator, and others at equal precision, make ``q`` 1 but for rounding.
_ROUNDING = 1e-9


def hartung_knapp_floor(at: WeightedMean, k: Floats, level: float) -> HalfWidth:
    """Return ``t(k - 1) * se * sqrt(max(1, q))``, ``q`` as in the unfloored form.

    ``floor_active`` marks the analyses in which ``q`` was below 1.

    References
    ----------
    Röver C, Knapp G, Friede T. BMC Med Res Methodol 2015;15:99.
    """
    factor = at.q / (k - 1)
    t = special.stdtrit(k - 1, (1 + level) / 2)
    return HalfWidth(t * at.se * np.sqrt(np.maximum(factor, 1.0)), factor < 1 - _ROUNDING)
