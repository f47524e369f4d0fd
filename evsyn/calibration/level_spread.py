"""The restricted likelihood of one spread shared by levels that each have their own centre."""

from dataclasses import dataclass

import numpy as np

from evsyn.effects.arguments import Floats
from evsyn.pooling.between_study.likelihood import RESTRICTED, Likelihood
from evsyn.pooling.studies import StudyRows


@dataclass(frozen=True, slots=True)
class WithinLevels(Likelihood):
    """A likelihood that is the product of those of some columns of studies."""

    parts: tuple[slice, ...]

    def log_value(self, studies: StudyRows, tau2: Floats) -> Floats:
        """Return the log-likelihood, the centres profiled out, up to a constant."""
        return _summed([RESTRICTED.log_value(columns_of(studies, one), tau2) for one in self.parts])

    def slope(self, studies: StudyRows, tau2: Floats) -> Floats:
        """Return the derivative of the log-likelihood in ``tau2``."""
        return _summed([RESTRICTED.slope(columns_of(studies, one), tau2) for one in self.parts])


def within_levels(parts: tuple[slice, ...]) -> Likelihood:
    """Return the restricted likelihood of studies whose columns belong to levels."""
    return WithinLevels(RESTRICTED.penalty, RESTRICTED.pull, parts)


def columns_of(studies: StudyRows, part: slice) -> StudyRows:
    """Return some of the studies of every review."""
    return StudyRows(
        studies.centre,
        studies.deviation[:, part],
        studies.variance[:, part],
        studies.present[:, part],
    )


def _summed(parts: list[Floats]) -> Floats:
    return np.asarray(np.sum(parts, axis=0), dtype=np.float64)
