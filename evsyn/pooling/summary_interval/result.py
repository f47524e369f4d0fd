"""What a method for the interval of the pooled estimate answers."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from evsyn.effects.arguments import Floats
from evsyn.pooling.studies import WeightedMean


@dataclass(frozen=True, slots=True)
class HalfWidth:
    """Half the width of the interval of each analysis, on the analysis scale.

    Parameters
    ----------
    half_width : ndarray
        Shape ``(analyses,)``.
    floor_active : ndarray of bool
        Whether a floor changed the width.
    """

    half_width: Floats
    floor_active: NDArray[np.bool_]


#: Takes the weighted mean, the number of studies of each analysis, and the level.
IntervalMethod: TypeAlias = Callable[[WeightedMean, Floats, float], HalfWidth]


def without_floor(half_width: Floats) -> HalfWidth:
    """Return the answer of a method that has no floor."""
    return HalfWidth(half_width, np.zeros(half_width.size, dtype=np.bool_))
