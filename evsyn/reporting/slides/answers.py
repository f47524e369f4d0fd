"""The slides that answer: each main outcome, its levels, and every study behind them."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from evsyn.cells.cell import Question
from evsyn.cells.levels import level_names
from evsyn.figures.forest import Band, ForestContent, forest_layout
from evsyn.figures.forest.content import Summary
from evsyn.figures.formats import SLIDE, PageFormat
from evsyn.figures.shapes import FigureLayout
from evsyn.reporting.forest import forest_of
from evsyn.reporting.report.content import OutcomeReport, ReportContent, StratumReport
from evsyn.reporting.report.foremost import foremost_strata
from evsyn.reporting.slides.levels import hue_of, level_hues
from evsyn.reporting.slides.notes import answer_notes, levels_notes, rows_notes
from evsyn.reporting.slides.room import Room
from evsyn.reporting.slides.slide import FigureBody, Slide
from evsyn.terms import OVERALL, UNPLACED
from evsyn.wording.pooled import TOO_WIDE, too_wide_to_quote
from evsyn.wording.report_slides import answer_title, backup_title, levels_title, part_title
from evsyn.wording.strata import untold_sentence

#: A talk holds no more answers than this; the others stand in the backup.
MOST_OUTCOMES = 4


def main_outcomes(content: ReportContent) -> tuple[OutcomeReport, ...]:
    """Return the outcomes a talk is about: the plan's primary one, and the first of the plan."""
    named = primary_outcome(content)
    ordered = sorted(content.outcomes, key=lambda item: item.name != named)
    chosen = {item.name for item in ordered[:MOST_OUTCOMES]}
    return tuple(item for item in content.outcomes if item.name in chosen)


def primary_outcome(content: ReportContent) -> str:
    """Return the outcome the plan names before all others, else its first."""
    primary = content.review.plan.audit.primary
    return content.outcomes[0].name if primary is None else primary.outcome


def answer_slides(room: Room, content: ReportContent, item: OutcomeReport) -> Iterator[Slide]:
    """Yield the answer to one outcome, then its levels by each further stratum that tells them.

    The answer is drawn by the stratum whose levels can best be compared. A stratum whose levels
    cannot be compared has no slide of its own in the talk: that it cannot is said.

    Parameters
    ----------
    room : Room
        The slide.
    content : ReportContent
        What the report says.
    item : OutcomeReport
        The outcome.
    """
    answer = item.overall.pooled.answer
    strata = foremost_strata(item, content.review.plan) if answer.show.pooled else ()
    if not strata:
        alone = _forest(content, item, None)
        title = answer_title(item.label, answer)
        # Where nothing is pooled, the studies themselves are the answer.
        has_rows = not answer.show.pooled
        notes = answer_notes(content, item, ())
        yield from forest_slides(room, "", title, alone, notes, all_rows=has_rows)
        return
    first, *others = strata
    untold = [_untold(content, item, one) for one in others]
    drawn = _forest(content, item, first.name)
    drawn = replace(drawn, short_caption=_joined(drawn.short_caption, *untold))
    title = answer_title(item.label, answer, first.label, first.difference)
    notes = answer_notes(content, item, strata)
    yield from forest_slides(room, "", title, drawn, notes)
    for stratum, cannot in zip(others, untold, strict=True):
        if not cannot:
            drawn, title = (
                _forest(content, item, stratum.name),
                _levels_title(content, item, stratum),
            )
            yield from forest_slides(room, "", title, drawn, levels_notes(content, stratum))


def _untold(content: ReportContent, item: OutcomeReport, stratum: StratumReport) -> str:
    return untold_sentence(content.review, item.name, stratum.name, content.answers)


def _joined(*parts: str) -> str:
    return " ".join(part for part in parts if part)


def _forest(content: ReportContent, item: OutcomeReport, stratum: str | None) -> ForestContent:
    plan = content.review.plan
    made = forest_of(content.review, item.name, stratum, known=content.answers)
    hues = level_hues(plan, stratum)
    words = level_names(plan.strata[stratum]) if stratum else {}
    asked = {
        said.lower(): Question(item.name, stratum or OVERALL, level)
        for level, said in words.items()
    }
    bands = []
    for band in made.bands:
        question = asked.get(band.title.lower(), Question(item.name))
        drawn = _marked(band) if too_wide_to_quote(content.answers[question].answer) else band
        bands.append(replace(drawn, hue=hue_of(hues, band.title)))
    return replace(made, bands=tuple(bands))


def _marked(band: Band) -> Band:
    """Say beside the row to read, in place of its method, that its value is none to quote."""
    if band.reading is not None:
        return replace(band, reading=replace(band.reading, method=TOO_WIDE))
    if band.headline is not None:
        return replace(band, headline=replace(band.headline, method=TOO_WIDE))
    return band


def backup_slides(
    room: Room, content: ReportContent, item: OutcomeReport, back: str
) -> Iterator[tuple[str, str, list[Slide]]]:
    """Yield, for each stratum that papers state, a name, a key and the slides of every row."""
    strata: list[StratumReport | None] = [*foremost_strata(item, content.review.plan)]
    for number, stratum in enumerate(strata or [None]):
        name = None if stratum is None else stratum.name
        label = "" if stratum is None else stratum.label
        key = f"backup-{item.name}-{name or 'all'}"
        title = backup_title(item.label, label)
        # Every count and its place is told once; other slides of the outcome draw the same.
        notes = () if number else rows_notes((item.overall,))
        drawn = _forest(content, item, name)
        slides = forest_slides(room, key, title, drawn, notes, all_rows=True)
        yield label, key, [replace(slide, back=back) for slide in slides]


def figure_slides(
    key: str, title: str, name: str, layout: FigureLayout, description: str, notes: Sequence[str]
) -> list[Slide]:
    """Return each page of a figure as a slide; the first has the key and the notes."""
    parts = len(layout.pages)
    return [
        Slide(
            key if i == 0 else "",
            part_title(title, i + 1, parts),
            FigureBody(page, name, description),
            tuple(notes) if i == 0 else (),
        )
        for i, page in enumerate(layout.pages)
    ]


def forest_slides(
    room: Room,
    key: str,
    title: str,
    content: ForestContent,
    notes: Sequence[str],
    *,
    all_rows: bool = False,
) -> list[Slide]:
    """Return a forest without the head and foot that the slide itself has.

    Parameters
    ----------
    room : Room
        The slide.
    key, title : str
        Name and message.
    content : ForestContent
        What the forest says.
    notes : sequence of str
        For the speaker.
    all_rows : bool
        Whether every study is drawn, on as many slides as that needs; if not, no study is.
    """
    bare = replace(
        content,
        title="",
        subtitle="" if all_rows else content.subtitle,
        status_line="",
        words=replace(content.words, invented="", invented_studies="", invented_unit="", page=""),
        bands=_rows(content.bands) if all_rows else _summaries(content.bands),
        mark_key=content.mark_key if all_rows else "",
        # What is said of bands and their difference stands with the answer and in the notes.
        caption="" if all_rows else content.caption,
    )
    layout = _fitted(bare, room.figure_format(all_rows=all_rows), all_rows=all_rows)
    said = forest_layout(content, SLIDE).description
    if all_rows:
        notes = (content.subtitle, content.caption, *notes)
    return figure_slides(key, title, content.title, layout, said, notes)


def _fitted(content: ForestContent, fmt: PageFormat, *, all_rows: bool) -> FigureLayout:
    """Lay a forest out; a message has one slide, and what it has no room for stands in the notes.

    Raises
    ------
    ValueError
        If not even the rows alone have room.
    """
    for shed in () if all_rows else (_whole, _without_subtitle, _without_captions):
        content = shed(content)
        try:
            layout = forest_layout(content, fmt)
        except ValueError:
            continue
        if len(layout.pages) == 1:
            return layout
    return forest_layout(content, fmt)


def _whole(content: ForestContent) -> ForestContent:
    return content


def _without_subtitle(content: ForestContent) -> ForestContent:
    return replace(content, subtitle="")


def _without_captions(content: ForestContent) -> ForestContent:
    return replace(content, caption="", short_caption="")


def _rows(bands: Sequence[Band]) -> tuple[Band, ...]:
    return tuple(replace(band, sentence=band.short_sentence or band.sentence) for band in bands)


def _summaries(bands: Sequence[Band]) -> tuple[Band, ...]:
    """Return bands with the one row to quote; the headline and the methods are in the backup."""
    return tuple(_to_quote(replace(band, lines=())) for band in bands)


def _to_quote(band: Band) -> Band:
    if band.reading is None:
        return replace(band, headline=_unnamed(band.headline))
    return replace(band, headline=None, reading=_unnamed(band.reading))


def _unnamed(row: Summary | None) -> Summary | None:
    """Leave out the name of a method, but not that its number is none to quote."""
    return row if row is None or row.method == TOO_WIDE else replace(row, method="")


def _levels_title(content: ReportContent, item: OutcomeReport, stratum: StratumReport) -> str:
    words = level_names(content.review.plan.strata[stratum.name])
    levels = [
        (words[answered.question.level], answered.pooled.answer)
        for answered in stratum.answers
        if answered.question.level != UNPLACED
    ]
    return levels_title(item.label, stratum.label, levels, stratum.difference)
