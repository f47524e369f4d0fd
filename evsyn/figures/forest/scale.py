"""Which part of 0 to 100 per 100 patients the figure shows, and where a proportion falls on it."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from evsyn.figures.forest.content import ForestContent
from evsyn.figures.ticks import rounded_up

_MOST_STEPS = 6
#: Share of the row intervals that end within the axis where that costs little room.
_HELD = 0.8
#: Free room past the last thing that must be seen.
_HEADROOM = 1.02
#: Past this reach the whole of 0 to 100 is shown.
_WHOLE_FROM = 0.7


@dataclass(frozen=True, slots=True)
class Scale:
    """Ends and tick step of the axis, per 100 patients."""

    start: float
    end: float
    step: float

    @property
    def ticks(self) -> tuple[float, ...]:
        """Tick values from start to end."""
        number = round((self.end - self.start) / self.step)
        return tuple(round(self.start + i * self.step, 6) for i in range(number + 1))


@dataclass(frozen=True, slots=True)
class Axis:
    """A scale laid between two x positions."""

    scale: Scale
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


def tick_label(value: float) -> str:
    """Write a tick value without needless zeros."""
    return f"{value:g}"


def scale_for(content: ForestContent) -> Scale:
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
        return Scale(0, 100, 20)
    if 1 - min(held) < max(held):
        reach = _reach([1 - value for value in held], [1 - low for low, _ in limits])
        end, step = _rounded(reach)
        return Scale(100 - end, 100, step)
    end, step = _rounded(_reach(held, [high for _, high in limits]))
    return Scale(0, end, step)


def _reach(held: Sequence[float], ends: Sequence[float]) -> float:
    """Return how far from its closed end the axis must go."""
    need = max(held)
    ordered = sorted(ends)
    want = ordered[math.ceil(_HELD * len(ordered)) - 1] if ordered else need
    return max(_HEADROOM * need, min(want, 2 * need) if need > 0 else want)


def _rounded(reach: float) -> tuple[float, float]:
    if reach > _WHOLE_FROM:
        return 100.0, 20.0
    return rounded_up(max(100 * reach, 0.3), least_step=0.1, most_steps=_MOST_STEPS)
