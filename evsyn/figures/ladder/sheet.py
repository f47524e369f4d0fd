"""Where things stand across a ladder."""

from dataclasses import dataclass
from typing import Self

from evsyn.figures.forest.scale import Axis
from evsyn.figures.formats import PageFormat
from evsyn.figures.ladder.content import LadderContent, Rung
from evsyn.figures.measure import text_width, wrapped
from evsyn.figures.paper import Paper
from evsyn.figures.ticks import RateScale, rate_scale

#: In units of the type size: room beside the edge, between columns, past the ends of the axis.
PAD, GAP, OVERHANG = 0.6, 1.2, 0.8
#: Least share of the width that belongs to the plot.
_PLOT_SHARE = 0.3
#: Answers that go further than this many times the base's own limit leave the axis.
_FARTHEST = 2.5


@dataclass(frozen=True, slots=True)
class Sheet(Paper):
    """A ladder at one type size, laid out across but not yet down.

    Parameters
    ----------
    fmt, size
        As in :class:`Paper`.
    content : LadderContent
        What is shown.
    label_room : float
        Room of a label.
    note, value : float
        Left edge of the notes, right edge of the values.
    axis : Axis
        The scale between its two ends.
    """

    content: LadderContent
    label_room: float
    note: float
    value: float
    axis: Axis

    @property
    def label(self) -> float:
        """Left edge of the labels."""
        return self.left + PAD * self.size

    def label_lines(self, rung: Rung) -> tuple[str, ...]:
        """Return the lines of a label."""
        return wrapped(rung.label, self.label_room, self.size, bold=rung is self.content.base)

    def words_height(self, rung: Rung) -> float:
        """Return the height of the words of a rung."""
        return self.line_height * len(self.label_lines(rung))

    def height(self, rung: Rung) -> float:
        """Return the least height of a rung."""
        return self.words_height(rung) + (1.1 * self.size if self.fmt.stacked else 0.0)

    @classmethod
    def across(cls, content: LadderContent, fmt: PageFormat, size: float) -> Self:
        """Share the width among labels, notes, plot and values; a narrow screen stacks them."""
        left, right = fmt.margin + PAD * size, fmt.width - fmt.margin - PAD * size
        scale, over = scale_for(content), OVERHANG * size
        notes = _widest([rung.note for rung in content.all] + [content.headings[1]], size)
        values = _widest([rung.value for rung in content.all] + [content.headings[2]], size)
        if fmt.stacked:
            room = right - left - values - GAP * size
            return cls(
                fmt, size, content, room, left, right, Axis(scale, left + over, right - over)
            )
        names = _widest([rung.label for rung in content.all] + [content.headings[0]], size)
        free = right - left - notes - values - 3 * GAP * size
        label_room = max(min(names, free - _PLOT_SHARE * (right - left)), 8 * size)
        note = left + label_room + GAP * size
        axis = Axis(scale, note + notes + GAP * size + over, right - values - GAP * size - over)
        return cls(fmt, size, content, label_room, note, right, axis)


def scale_for(content: LadderContent) -> RateScale:
    """Return the axis that holds every estimate and, where they are not far out, the limits."""
    drawn = [rung for rung in content.all if rung.estimate is not None]
    if not drawn:
        return RateScale(0, 100, 20)
    values = [rung.estimate for rung in drawn if rung.estimate is not None]
    is_from_top = 1 - min(values) < max(values)
    reaches = [_reach(rung, is_from_top=is_from_top) for rung in drawn]
    centres = [1 - value if is_from_top else value for value in values]
    cap = _FARTHEST * _reach(content.base, is_from_top=is_from_top) or max(reaches)
    reach = max(*centres, min(max(reaches), cap))
    return rate_scale(1.02 * min(reach, 0.98), is_from_top=is_from_top)


def _reach(rung: Rung, *, is_from_top: bool) -> float:
    if rung.estimate is None:
        return 0.0
    return 1 - rung.low if is_from_top else rung.high


def _widest(words: list[str], size: float) -> float:
    return max(text_width(one, size, bold=True) for one in words)
