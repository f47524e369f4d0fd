"""The interval of Hartung, Knapp, Sidik and Jonkman."""

import numpy as np
from scipy import special

from evsyn.effects.arguments import Floats
from evsyn.pooling.studies import WeightedMean
from evsyn.pooling.summary_interval.result import HalfWidth, without_floor


def hartung_knapp(at: WeightedMean, k: Floats, level: float) -> HalfWidth:
    """Return ``t(k - 1) * se * sqrt(q)`` with ``q = sum(w * residual ** 2) / (k - 1)``.

    ``w`` are the random-effects weights. The width is 0 where all estimates are equal, and can be
    narrower than the ordinary one: see the floored form.

    References
    ----------
    Hartung J, Knapp G. Stat Med 2001;20:3875-3889; Sidik K, Jonkman JN. Stat Med
    2002;21:3153-3159.
    """
    t = special.stdtrit(k - 1, (1 + level) / 2)
    return without_floor(np.asarray(t * at.se * np.sqrt(at.q / (k - 1)), dtype=np.float64))
