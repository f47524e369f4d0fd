"""Where things stand across a page of count strips, and how high a strip must be."""

from dataclasses import dataclass
from typing import Self

from evsyn.figures.formats import PageFormat
from evsyn.figures.measure import text_width, wrapped
from evsyn.figures.paper import Paper
from evsyn.figures.strip.content import Columns, Strip, StripContent
from evsyn.wording.strip import UNRELIABLE

#: In units of the type size: room beside the band's edge, between words and columns side by side
#: and stacked, around a strip; widest slot of a count; room of the unit's mark.
PAD, GAP, STACKED, AROUND, WIDEST_SLOT, MARK = 0.9, 1.4, 0.3, 0.35, 4.4, 0.55
#: Least height of the columns on paper and on a slide, which holds three strips so, and their
#: height on a screen, where there is room.
_LEAST_COLUMNS, _LEAST_ON_SLIDE, _COLUMNS = 3.6, 2.8, 6.0
#: Share of the width that belongs to the words.
_WORDS = 0.36


@dataclass(frozen=True, slots=True)
class Sheet(Paper):
    """Count strips at one type size on one format, laid out across but not yet down.

    Parameters
    ----------
    fmt, size
        As in :class:`Paper`.
    content : StripContent
        What is shown.
    label, label_room : float
        Where words start, and how long a line of them may be.
    plot_left, plot_right : float
        Edges of the columns.
    """

    content: StripContent
    label: float
    label_room: float
    plot_left: float
    plot_right: float

    @classmethod
    def across(cls, content: StripContent, fmt: PageFormat, size: float) -> Self:
        """Share the width between words and columns; a narrow screen stacks them."""
        paper = Paper(fmt, size)
        label, right = paper.left + PAD * size, paper.right - PAD * size
        if fmt.stacked:
            return cls(fmt, size, content, label, right - label, label, right)
        room = _WORDS * (right - label)
        return cls(fmt, size, content, label, room, label + room + GAP * size, right)

    def words_room(self, strip: Strip) -> float:
        """Return how long the lines of words beside a strip may be; without columns, all of it."""
        return self.label_room if strip.columns is not None else self.plot_right - self.label

    def title_lines(self, strip: Strip) -> tuple[str, ...]:
        """Return the lines of a strip's title."""
        return wrapped(strip.title, self.words_room(strip), self.size, bold=True)

    def said_lines(self, strip: Strip) -> tuple[str, ...]:
        """Return the lines of a strip's sentence."""
        is_short = self.fmt.is_slide and strip.short_sentence
        said = strip.short_sentence if is_short else strip.sentence
        return wrapped(said, self.words_room(strip), self.size)

    def size_lines(self, strip: Strip) -> tuple[str, ...]:
        """Return the lines that say how many cases, and what is not drawn."""
        is_short = self.fmt.is_slide and strip.short_size
        said = strip.short_size if is_short else strip.size
        return wrapped(said, self.words_room(strip), self.size) if said else ()

    def own_lines(self, strip: Strip) -> tuple[str, ...]:
        """Return our count in lines, where no mark shows it."""
        if strip.columns is not None:
            return ()
        return wrapped(strip.own_words, self.words_room(strip), self.size, bold=True)

    def words_height(self, strip: Strip) -> float:
        """Return the height of all words beside a strip."""
        parts = (self.title_lines, self.own_lines, self.size_lines, self.said_lines)
        return self.line_height * sum(len(lines(strip)) for lines in parts)

    def end_lines(self, strip: Strip) -> tuple[tuple[str, str], ...]:
        """Return the lines over the columns, each with what stands at its left and right end."""
        fewer, more = end_words(strip)
        room = self.plot_right - self.plot_left
        both = text_width(fewer, self.size) + text_width(more, self.size)
        if both + self.size <= room:
            return ((fewer, more),)
        lower = [(line, "") for line in wrapped(fewer, room, self.size)]
        upper = [("", line) for line in wrapped(more, room, self.size)]
        return (*lower, *upper)

    def own_height(self, strip: Strip) -> float:
        """Return the height of our mark and its words under the columns."""
        several = not strip.own.is_exact and not strip.own.is_withheld
        return self.line_height + (MARK * self.size if several else 0.0)

    def plot_height(self, strip: Strip) -> float:
        """Return the least height of columns, their axis, and the words over and under them."""
        if strip.columns is None:
            return 0.0
        lines = len(self.end_lines(strip)) + 1
        tall = _LEAST_ON_SLIDE if self.fmt.is_slide else _LEAST_COLUMNS
        if self.fmt.height is None:
            tall = _COLUMNS
        return lines * self.line_height + tall * self.size + self.own_height(strip)

    def height(self, strip: Strip) -> float:
        """Return the least height of a strip."""
        words, plot = self.words_height(strip), self.plot_height(strip)
        around = 2 * AROUND * self.size
        if not self.fmt.stacked:
            return around + max(words, plot)
        return around + words + plot + (STACKED * self.size if plot else 0.0)


def slot_width(columns: Columns, room: float, size: float) -> float:
    """Return the width that belongs to one count."""
    return min(room / len(columns.ordinary), WIDEST_SLOT * size)


def end_words(strip: Strip) -> tuple[str, str]:
    """Return the words at the lower and the upper end of the range."""
    if strip.columns is not None and not strip.columns.is_judged:
        return "", UNRELIABLE
    return strip.fewer, strip.more
