"""Does the result go with something else known of the studies: a regression on covariates."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

import numpy as np
from scipy.special import expit

from evsyn.cells.covariate_rows import CovariateRows, covariate_rows
from evsyn.cells.covariates import Covariate, Kind
from evsyn.extraction.review import Review
from evsyn.pooling.regressed import Regressed, regress_cells
from evsyn.pooling.regression import RegressionStatus

#: Years to which an odds ratio on a year belongs.
YEARS = 10.0


class NoRegression(StrEnum):
    """Why nothing is regressed."""

    BY_PLAN = "the plan forbids pooling"
    NO_ROWS = "no study has a count and all values"
    ONE_LEVEL = "one level alone"


@dataclass(frozen=True, slots=True)
class Term:
    """One column of the regression.

    Parameters
    ----------
    covariate : Covariate
        What it is a column of.
    column : str
        The column's name in the fit.
    level, against : str
        A level and the one it is set against; empty for a number.
    """

    covariate: Covariate
    column: str
    level: str = ""
    against: str = ""


@dataclass(frozen=True, slots=True)
class PredictedRate:
    """The rate the regression gives studies at one value of one covariate.

    The other columns are held at their means over the rows.

    Parameters
    ----------
    covariate : Covariate
        Which covariate.
    value : float or str
        Its value.
    rate, low, high : float
        The proportion in a typical such setting, with its limits.
    """

    covariate: Covariate
    value: float | str
    rate: float
    low: float
    high: float


@dataclass(frozen=True, slots=True)
class OnCovariates:
    """A regression of one outcome.

    Parameters
    ----------
    outcome : str
        The outcome.
    covariates : tuple of Covariate
        What it is regressed on.
    gathered : CovariateRows
        Its rows, and what gives none.
    terms : tuple of Term
        Its columns beside the intercept.
    found : Regressed or None
        Both models.
    reason : NoRegression or None
        Why there is none, beyond what the models say themselves.
    alone : tuple of Covariate
        Covariates with rows at one level alone.
    rates : tuple of PredictedRate
        Rates of the model quoted: at the lowest, middle and highest value of a number, and at
        every level.
    """

    outcome: str
    covariates: tuple[Covariate, ...]
    gathered: CovariateRows
    terms: tuple[Term, ...] = ()
    found: Regressed | None = None
    reason: NoRegression | None = None
    alone: tuple[Covariate, ...] = ()
    rates: tuple[PredictedRate, ...] = ()

    @property
    def tests(self) -> int:
        """Tests made: one a column, and one of all where there are several."""
        if self.found is None or self.found.quoted.status is not RegressionStatus.FITTED:
            return 0
        return len(self.terms) + (len(self.terms) > 1)


def regress_on(review: Review, outcome: str, covariates: Sequence[Covariate]) -> OnCovariates:
    """Regress an outcome on covariates of its studies.

    Parameters
    ----------
    review : Review
        A review without faults.
    outcome : str
        An outcome of the plan.
    covariates : sequence of Covariate
        One or more, all different.

    Returns
    -------
    OnCovariates

    Notes
    -----
    Both models of :func:`evsyn.pooling.regressed.regress_cells`. A number enters about its mean;
    a year in tens of years, a size as its logarithm to base 2, so that a coefficient is that of a
    doubling.
    """
    gathered = covariate_rows(review, outcome, covariates)
    bare = OnCovariates(outcome, tuple(covariates), gathered)
    if review.plan.outcomes[outcome].do_not_pool is not None:
        return _refused(bare, NoRegression.BY_PLAN)
    if not gathered.rows:
        return _refused(bare, NoRegression.NO_ROWS)
    terms = [term for place, one in enumerate(covariates) for term in _terms(one, place, gathered)]
    alone = tuple(one for one in covariates if all(term.covariate != one for term in terms))
    if alone:
        return _refused(bare, NoRegression.ONE_LEVEL, alone)
    places = {one.word: place for place, one in enumerate(covariates)}
    columns = {
        term.column: np.array(
            [_entry(term, row.values[places[term.covariate.word]]) for row in gathered.rows]
        )
        for term in terms
    }
    means = {
        term.column: float(columns[term.column].mean()) if term.covariate.is_number else 0.0
        for term in terms
    }
    centred = {name: column - means[name] for name, column in columns.items()}
    found = regress_cells(
        [row.cell for row in gathered.rows], centred, level=review.plan.pooling.level
    )
    shares = {name: float(column.mean()) for name, column in centred.items()}
    rates = tuple(
        _rate(found, terms, one, value, means, shares)
        for place, one in enumerate(covariates)
        for value in _values(one, place, terms, gathered)
        if found.quoted.status is RegressionStatus.FITTED
    )
    return OnCovariates(outcome, bare.covariates, gathered, tuple(terms), found, rates=rates)


def rate_at(asked: OnCovariates, value: float) -> PredictedRate:
    """Return the rate at any value of the one covariate, a number, of a fitted regression."""
    (term,) = asked.terms
    mean = float(np.mean([_entry(term, row.values[0]) for row in asked.gathered.rows]))
    assert asked.found is not None
    return _rate(
        asked.found, [term], term.covariate, value, {term.column: mean}, {term.column: 0.0}
    )


def _refused(
    bare: OnCovariates, reason: NoRegression, alone: tuple[Covariate, ...] = ()
) -> OnCovariates:
    return OnCovariates(bare.outcome, bare.covariates, bare.gathered, reason=reason, alone=alone)


def _terms(covariate: Covariate, place: int, gathered: CovariateRows) -> list[Term]:
    if covariate.is_number:
        return [Term(covariate, covariate.word)]
    held = {row.values[place] for row in gathered.rows}
    first, *others = [level for level in covariate.levels if level in held]
    return [Term(covariate, f"{covariate.word}={level}", level, first) for level in others]


def _entry(term: Term, value: float | str) -> float:
    if isinstance(value, str):
        return float(value == term.level)
    if term.covariate.kind is Kind.SIZE:
        return math.log2(value)
    return value / YEARS if term.covariate.kind in (Kind.YEAR, Kind.RECRUITED) else value


def _values(
    covariate: Covariate, place: int, terms: Sequence[Term], gathered: CovariateRows
) -> list[float | str]:
    """Return the values a reader is told of: lowest, middle and highest, or every level."""
    if covariate.is_number:
        # The middle row's own value, so that a year stays a year.
        values = sorted(float(row.values[place]) for row in gathered.rows)
        return list(dict.fromkeys((values[0], values[len(values) // 2], values[-1])))
    own = [term for term in terms if term.covariate == covariate]
    return [own[0].against, *(term.level for term in own)]


def _rate(
    found: Regressed,
    terms: Sequence[Term],
    covariate: Covariate,
    value: float | str,
    means: dict[str, float],
    shares: dict[str, float],
) -> PredictedRate:
    at = found.quoted.at(
        [
            _entry(term, value) - means[term.column]
            if term.covariate == covariate
            else shares[term.column]
            for term in terms
        ]
    )
    rate, low, high = (float(expit(x)) for x in (at.centre, at.low, at.high))
    return PredictedRate(covariate, value, rate, low, high)
