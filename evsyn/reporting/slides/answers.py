"""The slides that answer: each main outcome, its levels, and every study behind them."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from evsyn.cells.levels import labelled_strata, level_names
from evsyn.figures.forest import Band, ForestContent, forest_layout
from evsyn.figures.formats import SLIDE
from evsyn.figures.shapes import FigureLayout
from evsyn.reporting.forest import forest_of
from evsyn.reporting.report.content import OutcomeReport, ReportContent, StratumReport
from evsyn.reporting.slides.notes import answer_notes, rows_notes
from evsyn.reporting.slides.room import Room
from evsyn.reporting.slides.slide import FigureBody, Slide
from evsyn.terms import UNPLACED
from evsyn.wording.report_slides import answer_title, backup_title, levels_title, part_title

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


def labelled(content: ReportContent, item: OutcomeReport) -> list[StratumReport]:
    """Return the strata of an outcome that papers state, with a level that holds a study."""
    names = labelled_strata(content.review.plan)
    return [s for s in item.strata if s.name in names and any(a.pooled.answer.k for a in s.answers)]


def answer_slides(room: Room, content: ReportContent, item: OutcomeReport) -> Iterator[Slide]:
    """Yield the answer to one outcome over all studies, then by each stratum that papers state.

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
    notes = answer_notes(content, item)
    title = answer_title(item.label, answer)
    strata = labelled(content, item) if answer.show.pooled else []
    if not strata:
        alone = _forest(content, item, None)
        # Where nothing is pooled, the studies themselves are the answer.
        has_rows = not answer.show.pooled
        yield from forest_slides(room, "", title, alone, notes, all_rows=has_rows)
        return
    for stratum in strata:
        drawn = _forest(content, item, stratum.name)
        yield from forest_slides(
            room,
            "",
            title if stratum is strata[0] else _levels_title(content, item, stratum),
            drawn,
            notes if stratum is strata[0] else (stratum.sentence, *rows_notes(stratum.answers)),
        )


def _forest(content: ReportContent, item: OutcomeReport, stratum: str | None) -> ForestContent:
    return forest_of(content.review, item.name, stratum, known=content.answers)


def backup_slides(
    room: Room, content: ReportContent, item: OutcomeReport, back: str
) -> Iterator[tuple[str, str, list[Slide]]]:
    """Yield, for each stratum that papers state, a name, a key and the slides of every row."""
    strata: list[StratumReport | None] = [*labelled(content, item)]
    for stratum in strata or [None]:
        name = None if stratum is None else stratum.name
        label = "" if stratum is None else stratum.label
        key = f"backup-{item.name}-{name or 'all'}"
        title = backup_title(item.label, label)
        answers = (item.overall,) if stratum is None else stratum.answers
        drawn = _forest(content, item, name)
        slides = forest_slides(room, key, title, drawn, rows_notes(answers), all_rows=True)
        yield label, key, [replace(slide, back=back) for slide in slides]


def figure_slides(
    key: str, title: str, name: str, layout: FigureLayout, description: str, notes: Sequence[str]
) -> list[Slide]:
    """Return each page of a figure as a slide; the first has the key, all have the notes."""
    parts = len(layout.pages)
    return [
        Slide(
            key if i == 0 else "",
            part_title(title, i + 1, parts),
            FigureBody(page, name, description),
            tuple(notes),
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
    fmt = room.figure_format(all_rows=all_rows)
    layout = forest_layout(bare, fmt)
    for shed in () if all_rows else (_without_headlines, _without_subtitle, _without_captions):
        # A message has one slide. What it has no room for stands in notes and backup.
        if len(layout.pages) > 1:
            bare = shed(bare)
            layout = forest_layout(bare, fmt)
    said = forest_layout(content, SLIDE).description
    if all_rows:
        notes = (content.subtitle, content.caption, *notes)
    return figure_slides(key, title, content.title, layout, said, notes)


def _without_headlines(content: ForestContent) -> ForestContent:
    read = tuple(replace(band, headline=None) if band.reading else band for band in content.bands)
    return replace(content, bands=read)


def _without_subtitle(content: ForestContent) -> ForestContent:
    return replace(content, subtitle="")


def _without_captions(content: ForestContent) -> ForestContent:
    return replace(content, caption="", short_caption="")


def _rows(bands: Sequence[Band]) -> tuple[Band, ...]:
    return tuple(replace(band, sentence=band.short_sentence or band.sentence) for band in bands)


def _summaries(bands: Sequence[Band]) -> tuple[Band, ...]:
    return tuple(replace(band, lines=()) for band in bands)


def _levels_title(content: ReportContent, item: OutcomeReport, stratum: StratumReport) -> str:
    words = level_names(content.review.plan.strata[stratum.name])
    levels = [
        (words[answered.question.level], answered.pooled.answer)
        for answered in stratum.answers
        if answered.question.level != UNPLACED
    ]
    return levels_title(item.label, stratum.label, levels, stratum.difference)
