"""Where things stand on a drawing of a regression."""

from dataclasses import dataclass
from typing import Self

from evsyn.figures.bubbles.content import BubbleContent
from evsyn.figures.formats import PageFormat
from evsyn.figures.measure import text_width, wrapped
from evsyn.figures.paper import Paper
from evsyn.figures.ticks import RateScale, rate_scale, tick_words

#: In units of the type size: radius of the largest and smallest bubble.
LARGEST, SMALLEST = 1.5, 0.22
#: Free room past the farthest rate; room past the ends of the axis below, as a share of it.
_HEADROOM, _ENDS = 1.08, 0.05
#: Room above and below the ends of the axis of rates, in radii of the largest bubble.
_PAD = 0.8
#: Least height of the plot in units of the type size, and against its width on a screen.
_LEAST, _OF_WIDTH, _OF_NARROW = 13.0, 0.62, 0.95


@dataclass(frozen=True, slots=True)
class Plot:
    """The rectangle of the drawing, with its two scales.

    ``pad`` is room above and below the ends of the axis of rates, so that a bubble at 0 hides no
    word below.
    """

    rates: RateScale
    start: float
    end: float
    left: float
    right: float
    top: float
    bottom: float
    pad: float

    def x(self, place: float) -> float:
        """Return the position of a place along the axis below."""
        return self.left + (place - self.start) / (self.end - self.start) * (self.right - self.left)

    def y(self, rate: float) -> float:
        """Return the height of a proportion, held at the ends of the axis."""
        part = (100 * rate - self.rates.start) / (self.rates.end - self.rates.start)
        low, high = self.bottom - self.pad, self.top + self.pad
        return low - min(1.0, max(0.0, part)) * (low - high)


@dataclass(frozen=True, slots=True)
class Sheet(Paper):
    """A drawing at one type size, laid out across.

    Parameters
    ----------
    fmt, size
        As in :class:`Paper`.
    content : BubbleContent
        What is shown.
    rates : RateScale
        The axis of rates.
    plot_left : float
        Left edge of the plot.
    """

    content: BubbleContent
    rates: RateScale
    plot_left: float

    @classmethod
    def across(cls, content: BubbleContent, fmt: PageFormat, size: float) -> Self:
        """Leave room for the tick values beside the plot."""
        rates = rates_for(content)
        ticks = max(text_width(tick_words(tick), size) for tick in rates.ticks)
        return cls(fmt, size, content, rates, Paper(fmt, size).left + ticks + 0.6 * size)

    @property
    def up_lines(self) -> tuple[str, ...]:
        """Return the words over the axis of rates, folded."""
        parts, start = [self.content.up], self.rates.start
        if start > 0:
            parts.append(self.content.axis_starts.format(start=tick_words(start)))
        return wrapped(" · ".join(parts), self.right - self.left, self.size)

    @property
    def above(self) -> float:
        """Room over the plot."""
        return len(self.up_lines) * self.line_height + 0.5 * self.size

    @property
    def below(self) -> float:
        """Room under the plot: tick values and the axis in words."""
        return 2 * self.line_height + 0.5 * self.size

    @property
    def height(self) -> float:
        """Least height of the plot with all that stands over and under it."""
        least = _LEAST * self.size
        if self.fmt.height is None:
            share = _OF_NARROW if self.fmt.stacked else _OF_WIDTH
            least = max(least, share * (self.right - self.plot_left))
        return self.above + least + self.below

    def plot(self, top: float, height: float) -> Plot:
        """Return the plot within a block."""
        held = [one.place for one in self.content.bubbles]
        room = _ENDS * (max(held) - min(held))
        return Plot(
            self.rates,
            min(held) - room,
            max(held) + room,
            self.plot_left,
            self.right,
            top + self.above,
            top + height - self.below,
            _PAD * LARGEST * self.size,
        )


def rates_for(content: BubbleContent) -> RateScale:
    """Return the axis that holds every study and the line; its limits may leave it."""
    held = [one.rate for one in content.bubbles] + [one.rate for one in content.line]
    if 1 - min(held) < max(held):
        return rate_scale(min(1.0, _HEADROOM * (1 - min(held))), is_from_top=True)
    return rate_scale(min(1.0, _HEADROOM * max(held)), is_from_top=False)
