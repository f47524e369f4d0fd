"""Where things stand across a sheet: columns, axis, and the words of the columns."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Self

from evsyn.figures.forest.content import Band, ForestContent, StudyLine, Summary, UnitLine
from evsyn.figures.forest.scale import Axis, scale_for
from evsyn.figures.formats import PageFormat
from evsyn.figures.measure import text_width
from evsyn.figures.palette import BandColours, band_colours
from evsyn.figures.paper import Paper
from evsyn.wording.forest import ForestWords
from evsyn.wording.numbers import count, percent, span

#: In units of the type size: free room beside columns, beside the band's edge, around the axis,
#: between a summary's tag and its method.
GAP, PAD, OVERHANG, TAG_GAP = 1.2, 0.9, 0.8, 0.6
#: Least share of the width that belongs to the intervals.
_PLOT_SHARE = 0.34
#: Shortest room for names, and the longest name that should not be cut.
_LEAST_LABEL, _ORDINARY_LABEL = 6.0, 18.0


def rate_words(row: StudyLine | UnitLine | Summary) -> str:
    """Write a row's proportion with its limits."""
    return f"{percent(row.estimate)} ({span(row.low, row.high)})"


def count_words(row: StudyLine | UnitLine) -> str:
    """Write a row's count."""
    return count(row.events, row.total)


def tag_words(words: ForestWords, band: Band, summary: Summary) -> str:
    """Say which pooled row this is."""
    if summary is band.reading:
        return words.read
    if summary is band.both:
        return words.both
    return words.headline_and_read if band.reading_is_headline else words.headline


def unit_name(content: ForestContent, unit: UnitLine) -> str:
    """Name the unit, and say so where it alone is invented."""
    return f"{content.unit_tag}: {unit.label}"


@dataclass(frozen=True, slots=True)
class Sheet(Paper):
    """A figure at one type size on one format, laid out across but not yet down.

    Parameters
    ----------
    fmt, size
        As in :class:`Paper`.
    content : ForestContent
        What is shown.
    label, label_room : float
        Where row names start, and how long they may be.
    cramped : bool
        Whether a name of ordinary length must be cut, or a stacked row drops its limits.
    count, marks, rate : float
        Right edge of the counts, left edge of the letters, right edge of the rates.
    axis : Axis
        The scale between its two ends.
    """

    content: ForestContent
    label: float
    label_room: float
    cramped: bool
    count: float
    marks: float
    rate: float
    axis: Axis

    @property
    def row_height(self) -> float:
        """Least height of a row."""
        return self.line_height + (1.15 * self.size if self.fmt.stacked else 0)

    def colours(self, band: int) -> BandColours:
        """Return the colours of a band: its own, else those of its place in the figure."""
        hue = self.content.bands[band].hue
        return band_colours(band if hue is None else hue)

    def numbers(self, row: StudyLine | UnitLine, letters: str) -> str:
        """Return count, letters and rate in one, as a stacked row prints them."""
        return stacked_numbers(row, letters, with_limits=not self.cramped)

    def plot_top(self, top: float) -> float:
        """Return where the room of a row's marks starts."""
        return top + (self.line_height if self.fmt.stacked else 0)

    def text_centre(self, top: float, height: float) -> float:
        """Return the middle of a row's words."""
        return top + (self.line_height if self.fmt.stacked else height) / 2

    def plot_centre(self, top: float, height: float) -> float:
        """Return the height at which a row's marks stand."""
        return (self.plot_top(top) + top + height) / 2

    @classmethod
    def across(cls, content: ForestContent, fmt: PageFormat, size: float) -> Self:
        """Share the width among the columns."""
        left, right = fmt.margin, fmt.width - fmt.margin
        label, inner_right = left + PAD * size, right - PAD * size
        scale, gap, over = scale_for(content), GAP * size, OVERHANG * size
        if fmt.stacked:
            axis = Axis(scale, label + over, inner_right - over)
            room = inner_right - label
            tight = _stacked_is_tight(content, size, room)
            ends = (label, label, inner_right)
            return cls(fmt, size, content, label, room, tight, *ends, axis)
        names, counts, letters, rates = _column_widths(content, size)
        marks_room = letters + gap / 2 if letters else 0.0
        others = counts + marks_room + rates + 3 * gap
        free = inner_right - label - others
        plot_least = _PLOT_SHARE * (right - left)
        name = max(_LEAST_LABEL * size, min(names, free - plot_least))
        count_right = label + name + gap + counts
        plot_left = count_right + marks_room + gap
        return cls(
            fmt,
            size,
            content,
            label,
            name,
            name < min(names, _ORDINARY_LABEL * size),
            count_right,
            count_right + gap / 2,
            inner_right,
            Axis(scale, plot_left + over, inner_right - rates - gap - over),
        )


def stacked_numbers(row: StudyLine | UnitLine, letters: str, *, with_limits: bool) -> str:
    """Write count, letters and rate in one."""
    beside = f" {letters}" if letters else ""
    rate = rate_words(row) if with_limits else percent(row.estimate)
    return f"{count_words(row)}{beside}, {rate}"


def _stacked_is_tight(content: ForestContent, size: float, room: float) -> bool:
    """Return whether some name of ordinary length does not fit beside its full numbers."""
    needs = [0.0]
    for band in content.bands:
        for line in band.lines:
            numbers = text_width(stacked_numbers(line, line.marks, with_limits=True), size)
            needs.append(min(text_width(line.name, size), _ORDINARY_LABEL * size) + numbers)
        if band.unit is not None:
            name = unit_name(content, band.unit)
            numbers = text_width(stacked_numbers(band.unit, "", with_limits=True), size, bold=True)
            needs.append(text_width(name, size, bold=True) + numbers)
    return max(needs) + GAP * size > room


def _column_widths(content: ForestContent, size: float) -> tuple[float, float, float, float]:
    """Return the room that names, counts, letters and rates need."""
    words = content.words
    lines = [line for band in content.bands for line in band.lines]
    units = [band.unit for band in content.bands if band.unit is not None]
    pooled = [(band, summary) for band in content.bands for summary in band.summaries]
    # Summaries have no count of their own: their words may run on through that column.
    through = max((_summary_room(words, band, row, size) for band, row in pooled), default=0.0)
    counts = max(
        _widest([words.count] if lines or units else [], size),
        _widest(map(count_words, lines), size),
        _widest(map(count_words, units), size, bold=True),
    )
    letters = _widest((line.marks for line in lines), size)
    names = max(
        _widest([words.study] if lines else [], size),
        _widest((line.name for line in lines), size),
        _widest((unit_name(content, unit) for unit in units), size, bold=True),
        through - (counts + GAP * size) - letters,
    )
    rates = max(
        _widest([words.rate, *map(rate_words, lines)], size),
        _widest(map(rate_words, units), size, bold=True),
        _widest((rate_words(summary) for _, summary in pooled), size, bold=True),
    )
    return names, counts, letters, rates


def _summary_room(words: ForestWords, band: Band, summary: Summary, size: float) -> float:
    tag = text_width(tag_words(words, band, summary), size, bold=True)
    return tag + TAG_GAP * size + text_width(summary.method, size)


def _widest(column: Iterable[str], size: float, *, bold: bool = False) -> float:
    return max((text_width(words, size, bold=bold) for words in column), default=0.0)
