"""Estimators of the between-study variance: one file and one line each."""

from evsyn.pooling.between_study.dersimonian_laird import dersimonian_laird
from evsyn.pooling.between_study.hedges_olkin import hedges_olkin
from evsyn.pooling.between_study.ml import ml
from evsyn.pooling.between_study.paule_mandel import paule_mandel
from evsyn.pooling.between_study.restricted_ml import restricted_ml
from evsyn.pooling.between_study.result import BetweenStudy, Estimator
from evsyn.pooling.between_study.sidik_jonkman import sidik_jonkman

#: Every estimator by its public name.
ESTIMATORS: dict[str, Estimator] = {
    "dersimonian_laird": dersimonian_laird,
    "restricted_ml": restricted_ml,
    "paule_mandel": paule_mandel,
    "ml": ml,
    "hedges_olkin": hedges_olkin,
    "sidik_jonkman": sidik_jonkman,
}

#: What stands for the estimator where no spread between studies is assumed.
NO_SPREAD = "none"

__all__ = ["ESTIMATORS", "NO_SPREAD", "BetweenStudy", "Estimator"]
