"""What an estimator of the between-study variance answers."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from evsyn.effects.arguments import Floats
from evsyn.pooling.studies import StudyRows


@dataclass(frozen=True, slots=True)
class BetweenStudy:
    """Between-study variance of each analysis.

    Parameters
    ----------
    tau2 : ndarray
        Shape ``(analyses,)``, never below 0, in squared units of the estimates.
    converged : ndarray of bool
        Whether the estimator reached its tolerance; always true of closed forms.
    """

    tau2: Floats
    converged: NDArray[np.bool_]


Estimator: TypeAlias = Callable[[StudyRows], BetweenStudy]


def closed_form(tau2: Floats) -> BetweenStudy:
    """Return the answer of an estimator that needs no search, cut at zero."""
    return BetweenStudy(np.maximum(tau2, 0.0), np.ones(tau2.size, dtype=np.bool_))
