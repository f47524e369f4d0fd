"""Effects of two arms of measurements: mean, standard deviation and number in each."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from evsyn.effects.arguments import LARGEST_COUNT, Floats, as_vector, refuse, same_length
from evsyn.effects.proportions import EffectSizes
from evsyn.effects.scales import IDENTITY


@dataclass(frozen=True, slots=True)
class TwoMeans:
    """Mean, standard deviation and patients of two arms, each of shape ``(studies,)``."""

    mean_1: Floats
    sd_1: Floats
    total_1: Floats
    mean_2: Floats
    sd_2: Floats
    total_2: Floats


def read_two_means(
    mean_1: ArrayLike,
    sd_1: ArrayLike,
    total_1: ArrayLike,
    mean_2: ArrayLike,
    sd_2: ArrayLike,
    total_2: ArrayLike,
) -> TwoMeans:
    """Return the checked summaries of two arms.

    Raises
    ------
    ValueError
        If values are not finite, lengths differ, a standard deviation is not above 0, or a total
        is not a whole number of at least 2.
    """
    given = {
        "mean_1": mean_1,
        "sd_1": sd_1,
        "total_1": total_1,
        "mean_2": mean_2,
        "sd_2": sd_2,
        "total_2": total_2,
    }
    read = {name: as_vector(name, values) for name, values in given.items()}
    for name, values in read.items():
        same_length("mean_1", read["mean_1"], name, values)
    for name in ("sd_1", "sd_2"):
        refuse(name, read[name] <= 0, "must be above 0")
    for name in ("total_1", "total_2"):
        refuse(name, read[name] != np.floor(read[name]), "must be whole numbers")
        refuse(name, read[name] < 2, "must be at least 2")
        refuse(name, read[name] > LARGEST_COUNT, f"must not exceed {LARGEST_COUNT:.0e}")
    return TwoMeans(**read)


def mean_differences(arms: TwoMeans) -> EffectSizes:
    """Return differences of means, variances ``sd1^2 / n1 + sd2^2 / n2``, in the units given.

    References
    ----------
    Cochrane Handbook for Systematic Reviews of Interventions 5.1.0, section 9.4.5.1.
    """
    variance = arms.sd_1**2 / arms.total_1 + arms.sd_2**2 / arms.total_2
    return EffectSizes(arms.mean_1 - arms.mean_2, variance, _none(variance), IDENTITY)


def standardised_mean_differences(arms: TwoMeans) -> EffectSizes:
    """Return differences of means over the pooled standard deviation, corrected for small samples.

    With ``N`` patients, ``g = (1 - 3 / (4 N - 9)) (m1 - m2) / sd`` and variance
    ``N / (n1 n2) + g^2 / (2 (N - 3.94))``; no unit.

    References
    ----------
    Hedges LV, Olkin I. Statistical Methods for Meta-Analysis. Academic Press, 1985, chapter 5
    (correction); Deeks JJ, Higgins JPT. Statistical algorithms, Cochrane, 2010 (variance).
    """
    total = arms.total_1 + arms.total_2
    squares = (arms.total_1 - 1) * arms.sd_1**2 + (arms.total_2 - 1) * arms.sd_2**2
    raw = (arms.mean_1 - arms.mean_2) / np.sqrt(squares / (total - 2))
    corrected = (1 - 3 / (4 * total - 9)) * raw
    variance = 1 / arms.total_1 + 1 / arms.total_2 + corrected**2 / (2 * (total - 3.94))
    return EffectSizes(corrected, variance, _none(variance), IDENTITY)


def _none(values: Floats) -> NDArray[np.bool_]:
    return np.zeros(values.size, dtype=np.bool_)


#: How to form the effects of two means, by the name of the contrast.
MEAN_EFFECTS = {
    "mean_difference": mean_differences,
    "standardised_mean_difference": standardised_mean_differences,
}
