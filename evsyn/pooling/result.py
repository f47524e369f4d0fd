"""The frozen record of one pooled answer, whichever model made it."""

import math
from dataclasses import dataclass, fields
from enum import StrEnum


class Status(StrEnum):
    """What could be computed."""

    POOLED = "pooled"
    NO_STUDY = "no_study"
    ONE_STUDY = "one_study"
    ALL_ZERO = "all_zero"
    ALL_FULL = "all_full"
    NOT_CONVERGED = "not_converged"
    NOT_ESTIMABLE = "not_estimable"


@dataclass(frozen=True, slots=True)
class Pooled:
    """One pooled answer: estimate, limits, spread, and how they were made.

    Limits, estimate and prediction are on the original scale (proportions between 0 and 1, ratios
    of arm 1 over arm 2, differences of arm 1 less arm 2); fields ending in ``_on_scale``, and every
    ``tau2``, are on the analysis scale (log-odds for ``logit``, natural logarithms for ``log``). A
    value that does not exist is ``nan`` here and ``None`` in :meth:`to_dict`.

    Parameters
    ----------
    model : str
        ``random_effects``, ``common_effect``, ``mantel_haenszel``, ``binomial_normal``,
        ``hypergeometric_normal`` or ``beta_binomial``.
    scale, between, interval : str
        Analysis scale, between-study estimator, interval method, by their public names.
    level : float
        Two-sided level of every interval.
    k : int
        Number of studies pooled.
    status : Status
        What could be computed.
    estimate, low, high : float
        Pooled value and its limits, original scale.
    estimate_on_scale, se_on_scale : float
        The same on the analysis scale, with its standard error.
    tau2, tau2_low, tau2_high : float
        Between-study variance, and its interval (Q-profile or profile likelihood).
    q, df, p : float
        Cochran's Q, its degrees of freedom and upper tail. Q is taken about the inverse-variance
        mean, or about the Mantel-Haenszel estimate (model ``mantel_haenszel``, or note
        ``q_about_mantel_haenszel``).
    i2, i2_from_q : float
        Share of variance between studies, from ``tau2`` and from ``q``; between 0 and 1.
    prediction_low, prediction_high, prediction_df : float
        Prediction interval for a new study, original scale, and degrees of freedom of its t.
    weights : tuple of float
        Share of weight of each study, in the order given; sums to 1 where pooled.
    converged : bool
        Whether the estimator reached its tolerance.
    floor_active : bool
        Whether the Hartung-Knapp floor changed the interval.
    notes : tuple of str
        Machine-readable remarks, as ``tau2_at_zero``.
    contrast : str
        What two arms are compared by, as ``odds_ratio``; empty for one arm and plain estimates.
    corrected, left_out : tuple of int
        Places, in the order given and from 0, of studies whose counts were changed so that an
        effect could be formed, and of studies that do not inform the contrast and were not pooled.
    """

    model: str
    scale: str
    between: str
    interval: str
    level: float
    k: int
    status: Status
    estimate: float = math.nan
    low: float = math.nan
    high: float = math.nan
    estimate_on_scale: float = math.nan
    se_on_scale: float = math.nan
    tau2: float = math.nan
    tau2_low: float = math.nan
    tau2_high: float = math.nan
    q: float = math.nan
    df: float = math.nan
    p: float = math.nan
    i2: float = math.nan
    i2_from_q: float = math.nan
    prediction_low: float = math.nan
    prediction_high: float = math.nan
    prediction_df: float = math.nan
    weights: tuple[float, ...] = ()
    converged: bool = True
    floor_active: bool = False
    notes: tuple[str, ...] = ()
    contrast: str = ""
    corrected: tuple[int, ...] = ()
    left_out: tuple[int, ...] = ()

    @property
    def tau(self) -> float:
        """Between-study standard deviation on the analysis scale."""
        return math.sqrt(self.tau2)

    def to_dict(self) -> dict[str, object]:
        """Return every field as plain data; values that do not exist become ``None``."""
        plain: dict[str, object] = {}
        for field in fields(self):
            value = getattr(self, field.name)
            if isinstance(value, float) and not math.isfinite(value):
                value = None
            elif isinstance(value, StrEnum):
                value = str(value)
            elif isinstance(value, tuple):
                value = list(value)
            plain[field.name] = value
        return plain
