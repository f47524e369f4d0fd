"""Performance of a method over simulated reviews, with Monte Carlo standard errors.

Source of every formula: Morris TP, White IR, Crowther MJ. Stat Med 2019;38:2074-2102, table 6,
from memory.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.special import expit

from evsyn.calibration.result import Estimated, Line, LineCalibration
from evsyn.effects.arguments import Floats


@dataclass(frozen=True, slots=True)
class Intervals:
    """What one line answered to each review, log-odds, shape ``(reviews,)``.

    ``nan`` in all three where it gave no answer.
    """

    estimate: Floats
    low: Floats
    high: Floats


def mean_of(values: Floats) -> Estimated:
    """Return the mean, and the standard deviation over the root of the number of reviews."""
    if not values.size:
        return Estimated(float("nan"), float("nan"))
    error = values.std(ddof=1) / np.sqrt(values.size) if values.size > 1 else np.nan
    return Estimated(float(values.mean()), float(error))


def share_of(happened: NDArray[np.bool_]) -> Estimated:
    """Return a share, and ``sqrt(share (1 - share) / reviews)``."""
    if not happened.size:
        return Estimated(float("nan"), float("nan"))
    share = float(happened.mean())
    return Estimated(share, float(np.sqrt(share * (1 - share) / happened.size)))


def performance(line: Line, found: Intervals, mu: float) -> LineCalibration:
    """Measure a line against the true log-odds of the median setting."""
    answered = np.isfinite(found.estimate)
    estimate, low, high = found.estimate[answered], found.low[answered], found.high[answered]
    return LineCalibration(
        line=line,
        reviews=answered.size,
        no_answer=share_of(~answered),
        coverage=share_of((low <= mu) & (mu <= high)),
        above=share_of(low > mu),
        below=share_of(high < mu),
        width=mean_of(expit(high) - expit(low)),
        bias=mean_of(expit(estimate) - expit(mu)),
        bias_log_odds=mean_of(estimate - mu),
    )
