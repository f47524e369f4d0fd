"""Where things stand across a sheet: columns, axis, and the words of the columns."""

from dataclasses import dataclass
from typing import Self

from evsyn.figures.forest.content import ForestContent, StudyLine, Summary, UnitLine
from evsyn.figures.forest.scale import Axis, scale_for
from evsyn.figures.formats import PageFormat
from evsyn.figures.measure import text_width
from evsyn.wording.numbers import count, percent, span

#: In units of the type size: free room beside columns, beside the band's edge, around the axis.
GAP, PAD, OVERHANG = 1.2, 0.9, 0.8
#: Least share of the width that belongs to the intervals.
_PLOT_SHARE = 0.34
_LEAST_LABEL = 6.0


def rate_words(row: StudyLine | UnitLine | Summary) -> str:
    """Write a row's proportion with its limits."""
    return f"{percent(row.estimate)} ({span(row.low, row.high)})"


def count_words(row: StudyLine | UnitLine) -> str:
    """Write a row's count."""
    return count(row.events, row.total)


@dataclass(frozen=True, slots=True)
class Sheet:
    """A figure at one type size on one format, laid out across but not yet down.

    Parameters
    ----------
    content : ForestContent
        What is shown.
    fmt : PageFormat
        The sheet.
    size : float
        Type size of the rows.
    left, right : float
        Edges of the bands.
    label, label_room : float
        Where row names start, and how long they may be.
    count, marks, rate : float
        Right edge of the counts, left edge of the letters, right edge of the rates.
    axis : Axis
        The scale between its two ends.
    """

    content: ForestContent
    fmt: PageFormat
    size: float
    left: float
    right: float
    label: float
    label_room: float
    count: float
    marks: float
    rate: float
    axis: Axis

    @property
    def line_height(self) -> float:
        """Distance between two baselines of running text."""
        return 1.22 * self.size

    @property
    def row_height(self) -> float:
        """Least height of a row."""
        return self.line_height + (1.15 * self.size if self.fmt.stacked else 0)

    def text_centre(self, top: float, height: float) -> float:
        """Return the middle of a row's words."""
        return top + (self.line_height if self.fmt.stacked else height) / 2

    def plot_centre(self, top: float, height: float) -> float:
        """Return the height at which a row's marks stand."""
        above = self.line_height if self.fmt.stacked else 0
        return top + above + (height - above) / 2

    def baseline(self, centre: float) -> float:
        """Return the baseline that centres a line of text on a height."""
        return centre + 0.345 * self.size

    @classmethod
    def across(cls, content: ForestContent, fmt: PageFormat, size: float) -> Self:
        """Share the width among the columns."""
        left, right = fmt.margin, fmt.width - fmt.margin
        label, inner_right = left + PAD * size, right - PAD * size
        scale, gap, over = scale_for(content), GAP * size, OVERHANG * size
        if fmt.stacked:
            axis = Axis(scale, label + over, inner_right - over)
            room = inner_right - label
            return cls(
                content, fmt, size, left, right, label, room, label, label, inner_right, axis
            )
        names, counts, letters, rates = _column_widths(content, size)
        marks_room = letters + gap / 2 if letters else 0.0
        others = counts + marks_room + rates + 4 * gap / 2 + gap
        free = inner_right - label - others
        plot_least = _PLOT_SHARE * (right - left)
        name = max(_LEAST_LABEL * size, min(names, free - plot_least))
        count_right = label + name + gap + counts
        plot_left = count_right + marks_room + gap
        return cls(
            content,
            fmt,
            size,
            left,
            right,
            label,
            name,
            count_right,
            count_right + gap / 2,
            inner_right,
            Axis(scale, plot_left + over, inner_right - rates - gap - over),
        )


def _column_widths(content: ForestContent, size: float) -> tuple[float, float, float, float]:
    words = content.words
    names, counts, letters, rates = [words.study], [words.count], [""], [words.rate]
    bold = [""]
    for band in content.bands:
        for line in band.lines:
            names.append(line.name)
            counts.append(count_words(line))
            letters.append(line.marks)
            rates.append(rate_words(line))
        rates += [rate_words(summary) for summary in band.summaries]
        if band.unit is not None:
            bold += [f"{words.unit}: {band.unit.label}"]
            counts.append(count_words(band.unit))
            rates.append(rate_words(band.unit))
    plain = [max(text_width(item, size) for item in column) for column in (names, letters)]
    heavy = [max(text_width(item, size, bold=True) for item in c) for c in (counts, rates, bold)]
    return max(plain[0], heavy[2]), heavy[0], plain[1], heavy[1]
