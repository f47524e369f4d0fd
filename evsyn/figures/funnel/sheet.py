"""Where things stand on a page of a performance funnel."""

from dataclasses import dataclass
from typing import Self

from evsyn.figures.formats import PageFormat
from evsyn.figures.funnel.content import FunnelContent, Stroke
from evsyn.figures.funnel.scales import Ground, shares_for
from evsyn.figures.measure import text_width, wrapped
from evsyn.figures.paper import Paper
from evsyn.figures.ticks import RateScale, rounded_up, tick_words
from evsyn.terms import Better
from evsyn.wording.numbers import percent

#: In units of the type size: radius of a mark, room between axis and words, widest direct label.
RADIUS, GAP, WIDEST_LABEL = 0.34, 0.6, 30.0
#: Least height of the plot in units of the type size; its height on a screen and on a
#: narrow one, against its width.
_LEAST, _OF_WIDTH, _OF_NARROW = 13.0, 0.62, 0.95


@dataclass(frozen=True, slots=True)
class Sheet(Paper):
    """A performance funnel at one type size on one format, laid out across.

    Parameters
    ----------
    fmt, size
        As in :class:`Paper`.
    content : FunnelContent
        What is shown.
    shares : RateScale
        The axis of shares.
    plot_left, plot_right : float
        Edges of the plot.
    """

    content: FunnelContent
    shares: RateScale
    plot_left: float
    plot_right: float

    @classmethod
    def across(cls, content: FunnelContent, fmt: PageFormat, size: float) -> Self:
        """Share the width among tick values, plot, and the words at the ends of lines."""
        paper, shares = Paper(fmt, size), shares_for(content)
        ticks = max(text_width(tick_words(tick), size) for tick in shares.ticks)
        ends = max((text_width(words, size) for words in end_words(content)), default=0.0)
        left = paper.left + ticks + GAP * size
        return cls(fmt, size, content, shares, left, paper.right - ends - GAP * size)

    def note_lines(self) -> tuple[str, ...]:
        """Return the remarks under the axis, folded."""
        room = self.right - self.left
        return tuple(line for note in self.content.notes for line in wrapped(note, room, self.size))

    def up_lines(self) -> tuple[str, ...]:
        """Return the words over the axis of shares, folded."""
        words, start = self.content.words, self.shares.start
        better = words.fewer if self.content.better is Better.FEWER else words.more
        parts = [words.up, better]
        if start > 0:
            parts.append(words.axis_starts.format(start=tick_words(start)))
        return wrapped(" · ".join(parts), self.right - self.left, self.size)

    @property
    def above(self) -> float:
        """Room over the plot."""
        return len(self.up_lines()) * self.line_height + 0.75 * self.size

    @property
    def below(self) -> float:
        """Room under the plot: tick values, the axis in words, remarks."""
        return (2 + len(self.note_lines())) * self.line_height + 0.5 * self.size

    @property
    def plot_height(self) -> float:
        """Least height of the plot with all that stands over and under it."""
        least = _LEAST * self.size
        if self.fmt.height is None:
            share = _OF_NARROW if self.fmt.stacked else _OF_WIDTH
            least = max(least, share * (self.plot_right - self.plot_left))
        return self.above + least + self.below

    def ground(self, top: float, height: float) -> Ground:
        """Return the plot within a block."""
        bottom = top + height - self.below
        end = self.content.cases_end
        left, right = self.plot_left, self.plot_right
        return Ground(self.shares, end, left, right, top + self.above, bottom)

    def case_ticks(self) -> list[int]:
        """Return the numbers of cases named under the plot, as many as there is room for."""
        end = self.content.cases_end
        each = text_width(f"{end:,}", self.size) + 1.5 * self.size
        most = max(1, min(8, int((self.plot_right - self.plot_left) / each)))
        _, step = rounded_up(end, least_step=1, most_steps=most)
        return list(range(0, end + 1, int(step)))

    def is_direct(self, words: str) -> bool:
        """Whether words are short enough to stand beside a mark."""
        return text_width(words, self.size, bold=True) <= WIDEST_LABEL * self.size


def centre_words(content: FunnelContent) -> str:
    """Name the middle line with its value; empty where there is none."""
    if content.centre is None:
        return ""
    name = content.words.typical if content.band is not None else content.words.target
    return f"{name} {percent(content.centre)}"


def end_words(content: FunnelContent) -> tuple[str, ...]:
    """Return all words that may stand at the ends of lines."""
    words = content.words
    named = {Stroke.ALERT: words.alert, Stroke.ALARM: words.alarm}
    drawn = [named[curve.stroke] for curve in content.curves if curve.stroke in named]
    return tuple(said for said in (centre_words(content), *drawn) if said)
