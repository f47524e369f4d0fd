"""The record of one regression of study results on characteristics of the studies."""

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

import numpy as np
from scipy.special import stdtrit


class RegressionStatus(StrEnum):
    """Whether the regression could be made."""

    FITTED = "fitted"
    TOO_FEW_STUDIES = "too_few_studies"
    COLLINEAR = "collinear"
    NO_INFORMATION = "no_information"
    NOT_CONVERGED = "not_converged"


@dataclass(frozen=True, slots=True)
class Coefficient:
    """One coefficient, on the analysis scale.

    Parameters
    ----------
    name : str
        Its column; the first is ``intercept``.
    estimate, se, t, p, low, high : float
        Value, standard error, t on the residual degrees of freedom with its two-sided P and
        limits.
    inflation : float
        How many times the other columns inflate its variance (1 where they have nothing in
        common with it); ``nan`` for the intercept.
    """

    name: str
    estimate: float
    se: float
    t: float
    p: float
    low: float
    high: float
    inflation: float


@dataclass(frozen=True, slots=True)
class Prediction:
    """The centre of studies with given characteristics, with its limits, on the analysis scale."""

    centre: float
    low: float
    high: float


@dataclass(frozen=True, slots=True)
class Regression:
    """A regression of study results on characteristics of the studies.

    Parameters
    ----------
    method : str
        ``restricted_ml_hartung_knapp_floor``, ``ml_ordinary`` or ``exact_binomial_normal``.
    status : RegressionStatus
        Whether it could be made.
    k : int
        Number of studies.
    columns : tuple of str
        The columns beside the intercept.
    level : float
        Two-sided level of the limits.
    coefficients : tuple of Coefficient
        Intercept first; empty where there is no fit.
    df : int
        Studies less coefficients.
    tau2, tau2_alone : float
        Between-study variance with the columns in, and with the intercept alone.
    r2 : float
        Share of the spread that the columns take away, not below 0; ``nan`` where no spread was
        seen without them.
    statistic, p : float
        F of all columns together on ``len(columns)`` and ``df``, and its upper tail.
    tied : tuple of str
        Columns that the others tell wholly, where the status is ``collinear``.
    covariance : tuple of tuple of float
        Covariance of the coefficients, row by row; empty where there is no fit.
    """

    method: str
    status: RegressionStatus
    k: int
    columns: tuple[str, ...]
    level: float
    coefficients: tuple[Coefficient, ...] = ()
    df: int = 0
    tau2: float = np.nan
    tau2_alone: float = np.nan
    r2: float = np.nan
    statistic: float = np.nan
    p: float = np.nan
    tied: tuple[str, ...] = ()
    covariance: tuple[tuple[float, ...], ...] = ()

    def at(self, values: Sequence[float]) -> Prediction:
        """Return the centre of studies with these values of the columns, with t limits.

        Parameters
        ----------
        values : sequence of float
            One value a column, in their order.
        """
        x = np.array([1.0, *values])
        centre = float(x @ [one.estimate for one in self.coefficients])
        se = float(np.sqrt(x @ np.array(self.covariance) @ x))
        half = float(stdtrit(self.df, 0.5 + self.level / 2)) * se
        return Prediction(centre, centre - half, centre + half)
