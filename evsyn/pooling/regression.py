"""Random-effects regression on several characteristics of studies, of effects or of counts."""

from collections.abc import Mapping
from dataclasses import replace

import numpy as np
from numpy.typing import ArrayLike
from scipy.special import fdtrc, stdtr, stdtrit

from evsyn.effects.arguments import Floats, as_estimates, as_level, as_vector
from evsyn.pooling.binomial_normal.counts import Counts, read_counts
from evsyn.pooling.binomial_normal.fit import ModelFit, fit_model
from evsyn.pooling.regression_record import Coefficient, Regression, RegressionStatus
from evsyn.pooling.regression_reml import fit_regression_reml

#: Studies wanted for each column beside the intercept.
#: Cochrane Handbook for Systematic Reviews of Interventions 5.1.0, section 9.6.4.
STUDIES_A_COLUMN = 10
#: A column with less than this share of its standard deviation to itself is told by the others:
#: beyond it their coefficients hang on the last digits of the columns, not on the studies.
LEAST_OWN = 1e-4
#: Name of the column of ones.
INTERCEPT = "intercept"
RESTRICTED_ML = "restricted_ml_hartung_knapp_floor"
ML = "ml_ordinary"
EXACT = "exact_binomial_normal"

__all__ = [
    "STUDIES_A_COLUMN",
    "Regression",
    "RegressionStatus",
    "regress_estimates",
    "regress_proportions",
]


def regress_estimates(
    estimate: ArrayLike,
    variance: ArrayLike,
    columns: Mapping[str, ArrayLike],
    *,
    restricted: bool = True,
    level: float = 0.95,
    least: int = STUDIES_A_COLUMN,
) -> Regression:
    """Regress study effects by restricted ML, with floored Hartung-Knapp t tests.

    Parameters
    ----------
    estimate, variance : array_like, shape (k,)
        Effects and sampling variances on the analysis scale.
    columns : mapping of str to array_like, shape (k,)
        Characteristics; an intercept is added before them.
    restricted : bool
        ``False`` for full maximum likelihood with ordinary standard errors, as some papers print.
    level : float
        Two-sided level of the limits.
    least : int
        Studies wanted a column; with fewer the regression is refused.

    Returns
    -------
    Regression

    Raises
    ------
    ValueError
        If a value cannot be used, a column is not one entry a study, or there is no column.

    References
    ----------
    Berkey CS et al. Stat Med 1995;14:395-411. Knapp G, Hartung J. Stat Med 2003;22:2693-2710.
    R2: Raudenbush SW, in Cooper H et al., The Handbook of Research Synthesis, 2009, from memory.
    """
    level = as_level(level)
    y, spread = as_estimates(estimate, variance)
    design = _design(columns, y.size)
    bare = _refused(RESTRICTED_ML if restricted else ML, columns, design, level, least)
    if bare.status is not RegressionStatus.FITTED:
        return bare
    # On standardised columns, so that a year far from 0 costs no digits.
    fit = fit_regression_reml(y, spread, _standard(design), restricted=restricted)
    alone = fit_regression_reml(y, spread, design[:, :1], restricted=restricted)
    back = _way_back(design)
    beta = back @ fit.beta
    covariance = back @ (fit.covariance_floor if restricted else fit.covariance) @ back.T
    statistic = _wald(beta, covariance)
    return _told(bare, design, beta, covariance, fit.tau2, alone.tau2, statistic)


def regress_proportions(
    events: ArrayLike,
    total: ArrayLike,
    columns: Mapping[str, ArrayLike],
    *,
    level: float = 0.95,
    least: int = STUDIES_A_COLUMN,
) -> Regression:
    """Regress counts by the binomial-normal model, with t tests on the residual freedom.

    Parameters
    ----------
    events, total : array_like of int, shape (k,)
        Patients with the event, and patients, of each study.
    columns, level, least
        As in :func:`regress_estimates`.

    Returns
    -------
    Regression
        Coefficients are differences of log-odds. The test of all columns together is the
        likelihood ratio over their number, on F.

    Raises
    ------
    ValueError
        If a count is impossible, a column is not one entry a study, or there is no column.

    Notes
    -----
    The t and F references are approximations, as for levels of a stratum: the normal and
    chi-squared ones reject too often with few studies.
    """
    level = as_level(level)
    counts = read_counts(events, total)
    design = _design(columns, counts.k)
    bare = _refused(EXACT, columns, design, level, least)
    if bare.status is not RegressionStatus.FITTED:
        return bare
    if counts.one_sided:
        return replace(bare, status=RegressionStatus.NO_INFORMATION)
    alone = fit_model(counts, design[:, :1])
    full = _fit_spread_out(counts, design)
    if not (alone.converged and full.converged and np.all(np.isfinite(full.covariance))):
        return replace(bare, status=RegressionStatus.NOT_CONVERGED)
    statistic = max(0.0, 2 * (full.loglik - alone.loglik)) / len(columns)
    return _told(bare, design, full.beta, full.covariance, full.tau**2, alone.tau**2, statistic)


def _design(columns: Mapping[str, ArrayLike], k: int) -> Floats:
    if not columns:
        raise ValueError("columns must hold one characteristic or more")
    read = {name: as_vector(name, values) for name, values in columns.items()}
    for name, values in read.items():
        if values.size != k:
            raise ValueError(f"{name} must hold one entry a study; got {values.size} for {k}")
    return np.column_stack([np.ones(k), *read.values()])


def _refused(
    method: str, columns: Mapping[str, ArrayLike], design: Floats, level: float, least: int
) -> Regression:
    names, (k, p) = tuple(columns), design.shape
    bare = Regression(method, RegressionStatus.FITTED, k, names, level, df=k - p)
    if k < least * len(names) or k <= p:
        return replace(bare, status=RegressionStatus.TOO_FEW_STUDIES)
    scaled = _standard(design)
    tied = tuple(name for place, name in enumerate(names, start=1) if _is_told(scaled, place))
    return replace(bare, status=RegressionStatus.COLLINEAR, tied=tied) if tied else bare


def _is_told(scaled: Floats, place: int) -> bool:
    """Whether the other columns leave nothing of one column."""
    column, others = scaled[:, place], np.delete(scaled, place, axis=1)
    own = column - others @ np.linalg.lstsq(others, column, rcond=None)[0]
    return bool(np.sqrt((own**2).mean()) < LEAST_OWN)


def _standard(design: Floats) -> Floats:
    """Return columns about their means, in their own standard deviations; the first stays ones."""
    away = design - design.mean(axis=0)
    size = np.sqrt((away**2).mean(axis=0))
    known = size > 1e-12 * np.maximum(1, np.abs(design).max(axis=0))
    scaled = np.where(known, away / np.where(known, size, 1), 0.0)
    scaled[:, 0] = 1.0
    return np.asarray(scaled, dtype=np.float64)


def _fit_spread_out(counts: Counts, design: Floats) -> ModelFit:
    """Fit on standardised columns, which the climb finds easier, and bring the answer back."""
    back = _way_back(design)
    fit = fit_model(counts, _standard(design))
    return replace(fit, beta=back @ fit.beta, covariance=back @ fit.covariance @ back.T)


def _way_back(design: Floats) -> Floats:
    """Return the matrix that turns coefficients of standardised columns into those of columns."""
    mean, size = design[:, 1:].mean(axis=0), design[:, 1:].std(axis=0)
    back = np.diag(np.concatenate([[1.0], 1 / size]))
    back[0, 1:] = -mean / size
    return np.asarray(back, dtype=np.float64)


def _wald(beta: Floats, covariance: Floats) -> float:
    tested = beta[1:]
    return float(tested @ np.linalg.solve(covariance[1:, 1:], tested)) / tested.size


def _told(
    bare: Regression,
    design: Floats,
    beta: Floats,
    covariance: Floats,
    tau2: float,
    tau2_alone: float,
    statistic: float,
) -> Regression:
    se = np.sqrt(np.diag(covariance))
    half = stdtrit(bare.df, 0.5 + bare.level / 2) * se
    t = beta / se
    p = 2 * stdtr(bare.df, -np.abs(t))
    inflation = [
        np.nan,
        *np.diag(np.linalg.inv(np.corrcoef(design[:, 1:].T).reshape(se.size - 1, -1))),
    ]
    values = zip(beta, se, t, p, beta - half, beta + half, inflation, strict=True)
    names = (INTERCEPT, *bare.columns)
    return replace(
        bare,
        coefficients=tuple(
            Coefficient(name, *map(float, row)) for name, row in zip(names, values, strict=True)
        ),
        tau2=tau2,
        tau2_alone=tau2_alone,
        r2=max(0.0, 1 - tau2 / tau2_alone) if tau2_alone > 0 else np.nan,
        statistic=statistic,
        p=float(fdtrc(len(bare.columns), bare.df, statistic)),
        covariance=tuple(tuple(map(float, row)) for row in covariance),
    )
