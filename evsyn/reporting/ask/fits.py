"""Regressions as fields for programs."""

import math
from typing import Any

from evsyn.pooling.regressed import Regressed
from evsyn.pooling.regression import Regression
from evsyn.pooling.robust import Robust


def number(value: float) -> float | None:
    """Return a number, or ``None`` for one that does not exist."""
    return value if math.isfinite(value) else None


def regressed_fields(found: Regressed) -> dict[str, Any]:
    """Return a regression by every route that was taken."""
    return {
        "quoted": found.quoted.method,
        "studies": found.studies,
        "rows": found.exact.k,
        "shared": list(found.shared),
        "models": [regression_fields(one) for one in (found.exact, found.two_step)],
        "robust": None if found.robust is None else _robust(found.robust),
    }


def regression_fields(found: Regression) -> dict[str, Any]:
    """Return one regression, its coefficients on the log-odds scale."""
    return {
        "method": found.method,
        "status": str(found.status),
        "df": found.df,
        "tau2": number(found.tau2),
        "tau2_alone": number(found.tau2_alone),
        "r2": number(found.r2),
        "f": number(found.statistic),
        "p": number(found.p),
        "tied": list(found.tied),
        "coefficients": [
            {
                "name": one.name,
                "estimate": number(one.estimate),
                "se": number(one.se),
                "low": number(one.low),
                "high": number(one.high),
                "p": number(one.p),
                "inflation": number(one.inflation),
            }
            for one in found.coefficients
        ],
    }


def _robust(line: Robust) -> list[dict[str, float | None]]:
    parts = (line.beta, line.se, line.low, line.high, line.df, line.p)
    names = ("estimate", "se", "low", "high", "df", "p")
    return [
        dict(zip(names, (number(float(value)) for value in row), strict=True))
        for row in zip(*parts, strict=True)
    ]
