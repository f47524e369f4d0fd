"""Spread of the estimates about their plain mean."""

import numpy as np

from evsyn.effects.arguments import Floats
from evsyn.pooling.studies import StudyRows


def sum_of_squares(studies: StudyRows) -> Floats:
    """Return the sum of squared distances of the estimates from their unweighted mean."""
    mean = studies.deviation.sum(axis=1) / studies.k
    residual = studies.present * (studies.deviation - mean[:, np.newaxis])
    return np.asarray((residual**2).sum(axis=1), dtype=np.float64)
