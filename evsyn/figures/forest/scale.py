"""Which part of 0 to 100 per 100 patients the figure shows, and where a proportion falls on it."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from evsyn.figures.forest.content import ForestContent
from evsyn.figures.ticks import RateScale, rate_scale

#: Share of the row intervals that end within the axis where that costs little room.
_HELD = 0.8
#: Free room past the last thing that must be seen.
_HEADROOM = 1.02


@dataclass(frozen=True, slots=True)
class Axis:
    """A scale laid between two x positions."""

    scale: RateScale
    left: float
    right: float

    def x(self, proportion: float) -> float:
        """Return the position of a proportion, held at the ends of the axis."""
        share = (100 * proportion - self.scale.start) / (self.scale.end - self.scale.start)
        return self.left + min(1.0, max(0.0, share)) * (self.right - self.left)

    def beyond_left(self, proportion: float) -> bool:
        """Whether a proportion lies before the start of the axis."""
        return 100 * proportion < self.scale.start - 1e-9

    def beyond_right(self, proportion: float) -> bool:
        """Whether a proportion lies past the end of the axis."""
        return 100 * proportion > self.scale.end + 1e-9


def scale_for(content: ForestContent) -> RateScale:
    """Return the axis that suits the figure.

    Every observed proportion, summary limit and prediction range lies within the axis. Rare
    outcomes are shown from 0; outcomes near 100 per 100 are shown up to 100, from 0 or, where
    the room would be empty, from higher up. Long row intervals may leave the axis.
    """
    held: list[float] = []
    limits: list[tuple[float, float]] = []
    for band in content.bands:
        held += [row.estimate for row in band.observed]
        limits += [(row.low, row.high) for row in band.observed]
        for summary in band.summaries:
            held += [summary.low, summary.high]
        for prediction in (band.prediction, band.wider_prediction):
            held += list(prediction or ())
    if not held:
        return RateScale(0, 100, 20)
    if 1 - min(held) < max(held):
        reach = _reach([1 - value for value in held], [1 - low for low, _ in limits])
        return rate_scale(reach, is_from_top=True)
    return rate_scale(_reach(held, [high for _, high in limits]), is_from_top=False)


def _reach(held: Sequence[float], ends: Sequence[float]) -> float:
    """Return how far from its closed end the axis must go."""
    need = max(held)
    ordered = sorted(ends)
    want = ordered[math.ceil(_HELD * len(ordered)) - 1] if ordered else need
    return max(_HEADROOM * need, min(want, 2 * need) if need > 0 else want)
