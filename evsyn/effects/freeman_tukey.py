"""The double arcsine of Freeman and Tukey, in its sum form, there and back.

The transform depends on the number of patients, so it has one way back for each size; what is
done for a pool, whose studies differ in size, is a convention (the harmonic mean of sizes) and not
an inverse. It is offered to match print.
"""

import numpy as np

from evsyn.effects.arguments import Floats


def double_arcsine(proportion: Floats, size: Floats | float) -> Floats:
    """Return ``asin(sqrt(x / (n + 1))) + asin(sqrt((x + 1) / (n + 1)))`` with ``x = n p``, radians.

    Parameters
    ----------
    proportion : ndarray
        Proportions between 0 and 1.
    size : ndarray or float
        Number of patients.

    References
    ----------
    Freeman MF, Tukey JW. Ann Math Stat 1950;21:607-611.
    """
    events = size * proportion
    below, above = np.sqrt(events / (size + 1)), np.sqrt((events + 1) / (size + 1))
    return np.asarray(np.arcsin(below) + np.arcsin(np.minimum(above, 1.0)), dtype=np.float64)


def proportion_of(angle: Floats, size: float) -> Floats:
    """Return the proportion whose double arcsine at one size is ``angle``.

    Angles outside those of 0 and 1 at this size give 0 and 1; ``nan`` stays ``nan``.

    References
    ----------
    Miller JJ. Am Stat 1978;32:138.
    """
    least = float(double_arcsine(np.zeros(1), size)[0])
    sine = np.sin(np.clip(angle, least, np.pi - least))
    excess = ((size + 1) * sine**2 - 1) / (size * sine)
    cosine = np.sqrt(np.maximum(1 - excess**2, 0.0))
    # One half less cosine / 2, in a form that keeps the digits of small proportions.
    small = excess**2 / (2 * (1 + cosine))
    return np.asarray(np.where(np.cos(angle) >= 0, small, 1 - small), dtype=np.float64)
