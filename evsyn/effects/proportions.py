"""Effects of single proportions: events out of a total, one row a study."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from evsyn.effects.arguments import Floats, as_counts, refuse
from evsyn.effects.freeman_tukey import double_arcsine
from evsyn.effects.scales import ARCSINE, FREEMAN_TUKEY, FREEMAN_TUKEY_MEAN, LOGIT, RAW, Scale


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
    total : ndarray or None
        Patients of each study, where the way back depends on them.
    """

    estimate: Floats
    variance: Floats
    corrected: NDArray[np.bool_]
    scale: Scale
    total: Floats | None = None

    def scale_of(self, mask: NDArray[np.bool_]) -> Scale:
        """Return the scale of one analysis: at the harmonic mean of sizes where size matters.

        References
        ----------
        Miller JJ. Am Stat 1978;32:138 (harmonic mean).
        """
        if self.scale.at_size is None or self.total is None or not mask.any():
            return self.scale
        return self.scale.at_size(float(mask.sum() / (1 / self.total[mask]).sum()))


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


def arcsine_effects(events: ArrayLike, total: ArrayLike) -> EffectSizes:
    """Return ``asin(sqrt(events / total))`` in radians, variances ``1 / (4 total)``.

    Parameters and errors as in :func:`logit_effects`; no count is changed.

    References
    ----------
    Rücker G, Schwarzer G, Carpenter J, Olkin I. Stat Med 2009;28:721-738.
    """
    x, n = as_counts(events, total)
    return EffectSizes(ARCSINE.forward(x / n), 1 / (4 * n), _none(x), ARCSINE)


def freeman_tukey_effects(events: ArrayLike, total: ArrayLike) -> EffectSizes:
    """Return double arcsines as a sum of two angles, variances ``1 / (total + 0.5)``.

    Parameters and errors as in :func:`logit_effects`; no count is changed. The way back of a pool
    is that of one study as large as the harmonic mean of sizes.

    References
    ----------
    Freeman MF, Tukey JW. Ann Math Stat 1950;21:607-611; Miller JJ. Am Stat 1978;32:138. Why it is
    no default: Schwarzer G et al. Res Synth Methods 2019;10:476-483.
    """
    return _freeman_tukey_effects(events, total, FREEMAN_TUKEY, 1.0)


def freeman_tukey_mean_effects(events: ArrayLike, total: ArrayLike) -> EffectSizes:
    """Return double arcsines as the mean of two angles, variances ``1 / (4 total + 2)``.

    Half the sum form of :func:`freeman_tukey_effects`, so proportions come out the same and
    ``tau2`` a quarter as large.
    """
    return _freeman_tukey_effects(events, total, FREEMAN_TUKEY_MEAN, 0.5)


def raw_effects(events: ArrayLike, total: ArrayLike) -> EffectSizes:
    """Return proportions as they are, variances ``p (1 - p) / total``.

    Parameters as in :func:`logit_effects`.

    Raises
    ------
    ValueError
        If the counts are impossible, or a study is at 0% or 100%: its variance would be 0.
    """
    x, n = as_counts(events, total)
    at_an_end = (x == 0) | (x == n)
    refuse("events", at_an_end, "must not be 0% or 100% of a study on the raw scale")
    return EffectSizes(x / n, x * (n - x) / n**3, _none(x), RAW)


def _freeman_tukey_effects(
    events: ArrayLike, total: ArrayLike, scale: Scale, share: float
) -> EffectSizes:
    x, n = as_counts(events, total)
    angle = share * double_arcsine(x / n, n)
    return EffectSizes(angle, share**2 / (n + 0.5), _none(x), scale, total=n)


def _none(events: Floats) -> NDArray[np.bool_]:
    return np.zeros(events.size, dtype=np.bool_)


#: How to form the effects of proportions, by the name of the scale.
PROPORTION_EFFECTS = {
    LOGIT.name: logit_effects,
    ARCSINE.name: arcsine_effects,
    FREEMAN_TUKEY.name: freeman_tukey_effects,
    FREEMAN_TUKEY_MEAN.name: freeman_tukey_mean_effects,
    RAW.name: raw_effects,
}
