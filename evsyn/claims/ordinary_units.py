"""The share of ordinary new units whose own rate a statement is true of."""

from dataclasses import dataclass

from scipy.special import logit

from evsyn.audit.predictive import Predictive, is_finite, predictive, spread_used, student
from evsyn.claims.reach import Reach
from evsyn.extraction.claim_value import Side
from evsyn.pooling.answer import Centre, PoolAnswer


@dataclass(frozen=True, slots=True)
class AtTau:
    """The share at one spread between settings (log-odds)."""

    tau: float
    share: float


@dataclass(frozen=True, slots=True)
class UnitShare:
    """The share of ordinary new units a statement is true of.

    Parameters
    ----------
    share : float
        By the spread that predictions use.
    at_low, at_high : AtTau or None
        At both ends of the 95% interval of the spread; ``None`` where these cannot be had.
    is_reliable : bool
        Whether there are the five studies that a prediction needs.
    """

    share: float
    at_low: AtTau | None
    at_high: AtTau | None
    is_reliable: bool


def unit_share(answer: PoolAnswer, reach: Reach) -> UnitShare | None:
    """Return the share of ordinary new units; ``None`` where none can be predicted.

    Parameters
    ----------
    answer : PoolAnswer
        A pool.
    reach : Reach
        The rates the statement is true of.
    """
    reading = answer.reading
    if reading is None or spread_used(reading) is None:
        return None
    is_beta = reading.rho is not None
    return UnitShare(
        share=_share(predictive(reading, answer.k), reach),
        at_low=None if is_beta else _at(reading.at_tau_low, answer.k, reach),
        at_high=None if is_beta else _at(reading.at_tau_high, answer.k, reach),
        is_reliable=answer.show.verdict,
    )


def _at(centre: Centre, k: int, reach: Reach) -> AtTau | None:
    if not is_finite(centre):
        return None
    return AtTau(centre.tau, _share(student(centre, k), reach))


def _share(units: Predictive, reach: Reach) -> float:
    below_high = 1.0 if reach.high == 1 else units.share_below(float(logit(float(reach.high))))
    below_low = 0.0 if reach.low == 0 else units.share_below(float(logit(float(reach.low))))
    if reach.side is Side.BELOW:
        return below_high
    return 1 - below_low if reach.side is Side.ABOVE else below_high - below_low
