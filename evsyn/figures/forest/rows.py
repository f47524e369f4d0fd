"""The rows of a band, each as a group of shapes: title, studies, summaries, unit, sentence."""

from evsyn.figures.forest.content import Band, StudyLine, Summary, UnitLine
from evsyn.figures.forest.marks import prediction_marks, study_marks, summary_marks, unit_marks
from evsyn.figures.forest.sheet import (
    GAP,
    TAG_GAP,
    Sheet,
    count_words,
    rate_words,
    tag_words,
    unit_name,
)
from evsyn.figures.measure import shortened, text_width, typeset
from evsyn.figures.palette import DIM, INK, PAPER, UNIT, BandColours
from evsyn.figures.shapes import Box, Group, Rect, Shape, Text
from evsyn.figures.sources import places, source_id

_UNIT_PAD = 0.15


def unit_pad(sheet: Sheet) -> float:
    """Return the room between the unit's row and its frame."""
    return _UNIT_PAD * sheet.fmt.slack * sheet.size


def title_lines(sheet: Sheet, title: str, counts: str) -> int:
    """Return how many lines a band's title takes: two where its counts do not fit beside it."""
    size, room = sheet.size, sheet.rate - sheet.label
    both = text_width(title, size, bold=True) + GAP * size + text_width(counts, size)
    return 1 if both <= room or not counts else 2


def fits_beside(sheet: Sheet, title: str, counts: str, beside: str) -> bool:
    """Return whether a short sentence fits on the line of a band's title."""
    size, gap = sheet.size, GAP * sheet.size
    used = text_width(title, size, bold=True) + gap + text_width(counts, size)
    return used + 2 * gap + text_width(beside, size) <= sheet.rate - sheet.label


def band_title(
    sheet: Sheet,
    title: str,
    counts: str,
    beside: str,
    colours: BandColours,
    top: float,
    height: float,
) -> Group:
    """Return the band's name and counts, and what else stands on their line."""
    size, lines = sheet.size, title_lines(sheet, title, counts)
    first = sheet.baseline(top + height / lines / 2)
    words = shortened(title, sheet.rate - sheet.label, size, bold=True)
    name = typeset(sheet.label, first, words, size, colours.strong, bold=True)
    if not counts:
        return Group("band", (name,))
    x = sheet.label if lines == 2 else sheet.label + name.width + GAP * size
    y = first + height / 2 if lines == 2 else first
    said = [name, typeset(x, y, counts, size, DIM)]
    if beside:
        said.append(typeset(sheet.rate, first, beside, size, INK, anchor="end"))
    return Group("band", tuple(said))


def study_row(
    sheet: Sheet,
    line: StudyLine,
    largest: float | None,
    colours: BandColours,
    top: float,
    height: float,
) -> Group:
    """Return a study's name, count, interval and rate, with its source as id and title."""
    texts = _row_texts(sheet, line.name, line, line.marks, top, height, bold=False)
    y = sheet.plot_centre(top, height)
    marks = study_marks(sheet.axis, line, largest, y, sheet.size, colours)
    place = Rect(Box(sheet.left, top, sheet.right, top + height))
    said = f"{line.name}: {count_words(line)}, {rate_words(line)}"
    if line.mark_words:
        said += f"; {line.mark_words}"
    return Group(
        "study",
        (place, *texts, *marks),
        source_id(line.sources),
        f"{said}. {places(line.sources)}",
    )


def unit_row(sheet: Sheet, unit: UnitLine, top: float, height: float) -> Group:
    """Return the unit's own row, framed."""
    name = unit_name(sheet.content, unit)
    inset = 0.05 * sheet.size
    frame = Rect(
        Box(sheet.left + 0.4 * sheet.size, top + inset, sheet.right - inset, top + height - inset),
        PAPER,
        UNIT,
        0.07 * sheet.size,
    )
    pad = unit_pad(sheet)
    top, height = top + pad, height - 2 * pad
    texts = _row_texts(sheet, name, unit, "", top, height, bold=True)
    y = sheet.plot_centre(top, height)
    marks = unit_marks(sheet.axis, unit, y, sheet.size)
    said = f"{name}: {count_words(unit)}, {rate_words(unit)}. {places((unit.source,))}"
    return Group("unit", (frame, *texts, *marks), source_id((unit.source,)), said)


def summary_rows(
    sheet: Sheet, band: Band, colours: BandColours, top: float, height: float
) -> Group:
    """Return the pooled rows, with the range for a new setting behind their marks."""
    words, size, axis = sheet.content.words, sheet.size, sheet.axis
    each = height / len(band.summaries)
    lowest = top + height - each
    behind_top = sheet.plot_centre(lowest, each) - 0.6 * size if sheet.fmt.stacked else top
    inset = 0.08 * size
    shapes: list[Shape] = list(
        prediction_marks(
            axis,
            band.prediction,
            band.wider_prediction,
            behind_top + inset,
            top + height - inset,
            colours,
        )
    )
    said = []
    for i, summary in enumerate(band.summaries):
        is_open = summary is not band.headline
        tag = tag_words(words, band, summary)
        start = top + i * each
        shapes += _summary_texts(sheet, tag, summary, start, each)
        y = sheet.plot_centre(start, each)
        shapes += summary_marks(axis, summary, y, size, colours, is_open=is_open)
        by = f", {summary.method}" if summary.method else ""
        said.append(f"{tag}: {rate_words(summary)}{by}")
    return Group("summary", tuple(shapes), title=f"{band.title}. {'; '.join(said)}.")


def sentence_line(sheet: Sheet, words: str, top: float, height: float) -> Group:
    """Return one line of the sentence under a band."""
    y = sheet.baseline(top + height / 2)
    return Group("sentence", (typeset(sheet.label, y, words, sheet.size, INK),))


def _fitting(sheet: Sheet, name: str, row: StudyLine | UnitLine, room: float, *, bold: bool) -> str:
    """Return a name that fits; where its tag finds no room, a unit's mark and frame tell it."""
    fits = text_width(name, sheet.size, bold=bold) <= room
    if (
        not fits
        and isinstance(row, UnitLine)
        and sheet.content.unit_tag == sheet.content.words.unit
    ):
        name = row.label
    return shortened(name, room, sheet.size, bold=bold)


def _row_texts(
    sheet: Sheet,
    name: str,
    row: StudyLine | UnitLine,
    marks: str,
    top: float,
    height: float,
    *,
    bold: bool,
) -> list[Text]:
    size, y = sheet.size, sheet.baseline(sheet.text_centre(top, height))
    if sheet.fmt.stacked:
        numbers = sheet.numbers(row, marks)
        right = typeset(sheet.rate, y, numbers, size, INK, anchor="end", bold=bold)
        room = sheet.label_room - right.width - GAP * size
        label = _fitting(sheet, name, row, room, bold=bold)
        return [typeset(sheet.label, y, label, size, INK, bold=bold), right]
    label = _fitting(sheet, name, row, sheet.label_room, bold=bold)
    texts = [
        typeset(sheet.label, y, label, size, INK, bold=bold),
        typeset(sheet.count, y, count_words(row), size, INK, anchor="end", bold=bold),
        typeset(sheet.rate, y, rate_words(row), size, INK, anchor="end", bold=bold),
    ]
    return [*texts, typeset(sheet.marks, y, marks, size, DIM)] if marks else texts


def _summary_texts(
    sheet: Sheet, tag: str, summary: Summary, top: float, height: float
) -> list[Shape]:
    size, y = sheet.size, sheet.baseline(sheet.text_centre(top, height))
    rate = typeset(sheet.rate, y, rate_words(summary), size, INK, anchor="end", bold=True)
    name = typeset(sheet.label, y, tag, size, INK, bold=True)
    texts: list[Shape] = [name, rate]
    start = name.x + name.width + TAG_GAP * size
    end = rate.box.left - GAP * size if sheet.fmt.stacked else sheet.axis.left - GAP * size
    if summary.method and text_width(summary.method, size) <= end - start:
        texts.append(typeset(start, y, summary.method, size, DIM))
    return texts
