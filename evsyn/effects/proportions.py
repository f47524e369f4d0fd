"""Effects of single proportions: events out of a total, one row a study."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from evsyn.effects.arguments import Floats, as_counts
from evsyn.effects.scales import LOGIT, Scale


@dataclass(frozen=True, slots=True)
class EffectSizes:
    """One estimate and sampling variance a study, on one scale.

    Parameters
    ----------
    estimate, variance : ndarray
        Shape ``(studies,)``, on the analysis scale.
    corrected : ndarray of bool
        Studies whose counts were changed so that the effect could be formed.
    scale : Scale
        The analysis scale, with the way back.
    """

    estimate: Floats
    variance: Floats
    corrected: NDArray[np.bool_]
    scale: Scale


def logit_effects(events: ArrayLike, total: ArrayLike) -> EffectSizes:
    """Return log-odds and their variances, ``1 / events + 1 / (total - events)``.

    Parameters
    ----------
    events, total : array_like of int
        Counts, shape ``(studies,)``.

    Returns
    -------
    EffectSizes
        Log-odds (natural logarithm). Half is added to the events and half to the non-events of
        studies at 0% or 100%, and of no other; such a denominator grows by 1.

    Raises
    ------
    ValueError
        If the counts are impossible.

    References
    ----------
    Cochrane Handbook for Systematic Reviews of Interventions 5.1.0, section 9.2.2.2 (half added
    to each cell, where an effect or its standard error cannot be formed).
    """
    x, n = as_counts(events, total)
    corrected = (x == 0) | (x == n)
    yes = x + 0.5 * corrected
    no = n - x + 0.5 * corrected
    # A difference of logarithms, so that events and non-events swapped change the sign alone.
    return EffectSizes(np.log(yes) - np.log(no), 1 / yes + 1 / no, corrected, LOGIT)


#: How to form the effects of proportions, by the name of the scale.
PROPORTION_EFFECTS = {LOGIT.name: logit_effects}
