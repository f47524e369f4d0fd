"""Make the row that is read, with all that prediction and audit need of it."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray
from scipy.special import expit

from evsyn.effects.proportions import logit_effects
from evsyn.pooling.answer import Centre, PoolAnswer, Reading, Row
from evsyn.pooling.beta_binomial import fit_beta_binomial
from evsyn.pooling.binomial_normal import (
    BinomialNormalFit,
    fit_binomial_normal,
    fit_binomial_normal_at,
    largest_tau,
    pool_binomial_normal,
    population_mean,
    profile_binomial_normal,
)
from evsyn.pooling.given_tau import SummaryAtTau, summary_at_largest_tau, summary_at_tau
from evsyn.pooling.result import Pooled, Status
from evsyn.terms import Interval

#: Below this between-study standard deviation, next to no spread was seen.
NEXT_TO_NONE = 0.1
#: Spread beyond which a logistic-normal centre cannot be told; limits are cut here.
WIDEST_TAU = 20.0

PREDICTION_WIDENED = "prediction_set_to_summary_interval"

Ints = NDArray[np.int64]


@dataclass(frozen=True, slots=True)
class ExactRow:
    """The exact row of a set of counts, read or not."""

    pooled: Pooled
    events: Ints
    total: Ints

    def reading(self, reasons: Sequence[str]) -> Reading | None:
        """Return it as the row to read; ``None`` if the model did not settle."""
        row = self.pooled
        if row.status is not Status.POOLED:
            return None
        low, high = math.sqrt(row.tau2_low), math.sqrt(row.tau2_high)
        centre = Centre(row.estimate_on_scale, row.se_on_scale, row.tau)
        return Reading(
            row=Row.EXACT,
            reasons=tuple(reasons),
            pooled=row,
            centre=centre,
            at_tau_low=self._at(low),
            at_tau_high=self._at(high),
            at_tau_hi=self._at(largest_tau(self.events, self.total))
            if row.tau < NEXT_TO_NONE
            else None,
            mean=population_mean(centre.mu, centre.tau),
        )

    def _at(self, tau: float) -> Centre:
        if math.isnan(tau):
            return Centre(tau, tau, tau)
        held = fit_binomial_normal_at(self.events, self.total, min(tau, WIDEST_TAU))
        return _centre_of_fit(held)


def exact_row(events: Ints, total: Ints, *, level: float, limits_of_tau: bool = True) -> ExactRow:
    """Fit the exact model to a set of counts with at least one event and one non-event."""
    pooled = _fitted_once(tuple(events.tolist()), tuple(total.tolist()), level, limits_of_tau)
    return ExactRow(pooled, events, total)


@lru_cache(maxsize=1024)
def _fitted_once(
    events: tuple[int, ...], total: tuple[int, ...], level: float, limits_of_tau: bool
) -> Pooled:
    """Fit a set of counts once: levels, eras and smaller sets often hold the same studies."""
    return pool_binomial_normal(events, total, level=level, limits_of_tau=limits_of_tau)


def restricted_ml_reading(
    events: Ints, total: Ints, row: Pooled, *, reasons: Sequence[str]
) -> Reading:
    """Return the restricted maximum likelihood row as the row to read."""
    effects = logit_effects(events, total)

    def at(tau: float) -> Centre:
        held = summary_at_tau(effects.estimate, effects.variance, min(tau, WIDEST_TAU))
        return _centre_of_summary(held)

    centre = Centre(row.estimate_on_scale, row.se_on_scale, row.tau)
    largest = (
        _centre_of_summary(summary_at_largest_tau(effects.estimate, effects.variance))
        if row.tau < NEXT_TO_NONE
        else None
    )
    return Reading(
        row=Row.RESTRICTED_ML,
        reasons=tuple(reasons),
        pooled=row,
        centre=centre,
        at_tau_low=at(math.sqrt(row.tau2_low)),
        at_tau_high=at(math.sqrt(row.tau2_high)),
        at_tau_hi=largest,
        mean=population_mean(centre.mu, centre.tau),
    )


def with_wide_enough_range(row: Pooled) -> Pooled:
    """Set the range for a new setting to the summary interval where that is wider.

    A floored Hartung-Knapp interval can be wider than the range made with the ordinary standard
    error; a note says where it was.
    """
    if not row.prediction_high - row.prediction_low < row.high - row.low:
        return row
    return replace(
        row,
        prediction_low=row.low,
        prediction_high=row.high,
        notes=(*row.notes, PREDICTION_WIDENED),
    )


def beta_binomial_reading(
    events: Ints, total: Ints, row: Pooled | None, *, reasons: Sequence[str]
) -> Reading | None:
    """Return the beta-binomial row as the row to read; ``None`` if it did not settle either."""
    if row is None or row.status is not Status.POOLED:
        return None
    fit = fit_beta_binomial(events, total)
    centre = Centre(math.log(fit.mean / (1 - fit.mean)), 0.0, 0.0)
    return Reading(
        row=Row.BETA_BINOMIAL,
        reasons=(*reasons, "the exact binomial-normal model did not settle"),
        pooled=row,
        centre=centre,
        at_tau_low=centre,
        at_tau_high=centre,
        at_tau_hi=None,
        mean=fit.mean,
        rho=fit.rho,
    )


def _centre_of_fit(fit: BinomialNormalFit) -> Centre:
    return Centre(fit.mu, fit.se, fit.tau)


def _centre_of_summary(summary: SummaryAtTau) -> Centre:
    return Centre(summary.estimate, summary.se, summary.tau)


def profile_interval(answer: PoolAnswer, *, level: float) -> Interval | None:
    """Return the profile-likelihood interval of the exact row, to stand beside its t limits.

    Parameters
    ----------
    answer : PoolAnswer
        An answer; ``None`` is returned where its exact row is missing or did not settle.
    level : float
        Two-sided level.
    """
    row = answer.rows.get(Row.EXACT)
    if row is None or row.status is not Status.POOLED:
        return None
    fit = fit_binomial_normal(answer.events, answer.total)
    found = profile_binomial_normal(answer.events, answer.total, fit, level=level)
    low, high = float(expit(found.mu_low)), float(expit(found.mu_high))
    return Interval(low, high, level, "profile_likelihood")
