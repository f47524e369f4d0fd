"""From pooled tables to what the figure says."""

import math
from collections.abc import Collection, Mapping, Sequence

from evsyn.effects.intervals import STUDY_INTERVALS
from evsyn.figures.forest.content import (
    Band,
    ForestContent,
    Invented,
    StudyLine,
    Summary,
    UnitLine,
)
from evsyn.pooling.answer import PoolAnswer, Row, Show
from evsyn.pooling.result import Pooled
from evsyn.pooling.tables import PooledTable
from evsyn.terms import Better, Source
from evsyn.wording.forest import IF_ONE_RATE, METHODS, ForestWords, words_at
from evsyn.wording.numbers import count, counted
from evsyn.wording.rows import mark_key, mark_letters


def forest_content(
    pooled: Sequence[PooledTable],
    *,
    title: str,
    subtitle: str,
    titles: Mapping[str, str],
    sentences: Mapping[str, str],
    short_sentences: Mapping[str, str] | None = None,
    status_line: str,
    caption: str,
    short_caption: str = "",
    better: Better,
    invented: Invented,
    units: Mapping[str, UnitLine] | None = None,
    without_rows: Collection[str] = (),
    show_two: bool = False,
    words: ForestWords | None = None,
    level: float = 0.95,
    study_interval: str = "clopper_pearson",
) -> ForestContent:
    """Return what a forest plot of some pools says.

    Parameters
    ----------
    pooled : sequence of PooledTable
        One band each, in order.
    title, subtitle : str
        The outcome; the denominator and window wanted, and found.
    titles, sentences : mapping
        Name and sentence of each band, by the key of its question.
    short_sentences : mapping, optional
        Sentences for slides, where the full ones take too much room.
    status_line, caption, short_caption : str
        Words for the foot; the last for slides, where the caption takes too much room.
    better : Better
        Which way the outcome should go.
    invented : Invented
        Which of the figures are invented.
    units : mapping, optional
        The unit's rows, by the key of the question they answer.
    without_rows : collection of str
        Keys of bands that show their summary alone, as all studies under their strata.
    show_two : bool
        Whether two studies are added up and drawn; they are never pooled.
    words : ForestWords, optional
        Headings and legend; by default in English, at the level of the intervals.
    level : float
        Two-sided level of the row intervals.
    study_interval : str
        Method of the row intervals, one for all of them, by its name.

    Raises
    ------
    ValueError
        If there is no pool, or a pool has no title or sentence.
    """
    if not pooled:
        raise ValueError("a forest plot needs at least one pool")
    keys = [item.table.question.key for item in pooled]
    if missing := [key for key in keys if key not in titles or key not in sentences]:
        raise ValueError(f"no title or no sentence for {', '.join(missing)}")
    bands = tuple(
        _band(
            item,
            title=titles[key],
            sentence=sentences[key],
            short_sentence=(short_sentences or {}).get(key, ""),
            unit=(units or {}).get(key),
            rows=key not in without_rows,
            show_two=show_two,
            level=level,
            study_interval=study_interval,
        )
        for key, item in zip(keys, pooled, strict=True)
    )
    marks = frozenset(
        mark
        for key, item in zip(keys, pooled, strict=True)
        if key not in without_rows
        for cell in item.table.cells
        for mark in cell.marks
    )
    return ForestContent(
        title=title,
        subtitle=subtitle,
        better=better,
        bands=bands,
        status_line=status_line,
        caption=caption,
        mark_key=mark_key(marks),
        invented=invented,
        words=words_at(level) if words is None else words,
        short_caption=short_caption,
    )


def unit_line(
    label: str,
    events: int,
    total: int,
    source: Source,
    *,
    level: float = 0.95,
    study_interval: str = "clopper_pearson",
) -> UnitLine:
    """Return a unit's own row, its interval by the method of the studies' rows."""
    low, high = STUDY_INTERVALS[study_interval]([events], [total], level=level)
    return UnitLine(label, events, total, float(low[0]), float(high[0]), source)


def _band(
    item: PooledTable,
    *,
    title: str,
    sentence: str,
    short_sentence: str,
    unit: UnitLine | None,
    rows: bool,
    show_two: bool,
    level: float,
    study_interval: str,
) -> Band:
    answer = item.answer
    reading = answer.reading
    headline = answer.rows.get(Row.HEADLINE) if answer.show.pooled else None
    is_headline = reading is not None and reading.row is Row.HEADLINE
    apart = reading if reading is not None and answer.show.pooled and not is_headline else None
    wider = answer.second_prediction if answer.show.verdict and reading is not None else None
    return Band(
        title=title,
        counts=_counts(item),
        lines=_lines(item, level, study_interval) if rows else (),
        show=answer.show,
        sentence=sentence,
        short_sentence=short_sentence,
        headline=None if headline is None else _summary(Row.HEADLINE, headline),
        reading=None if apart is None else _summary(apart.row, apart.pooled),
        reading_is_headline=is_headline and headline is not None,
        both=_both(answer) if show_two else None,
        prediction=_prediction(answer),
        wider_prediction=None if wider is None else (wider.low, wider.high),
        unit=unit,
    )


def _both(answer: PoolAnswer) -> Summary | None:
    """Add two studies up, with the exact interval of the total."""
    if answer.show is not Show.TWO or answer.crude is None:
        return None
    share = sum(answer.events) / sum(answer.total)
    return Summary(IF_ONE_RATE, share, answer.crude.low, answer.crude.high)


def _counts(item: PooledTable) -> str:
    table = item.table
    studies = counted(table.k, "study", "studies")
    if item.answer.show in (Show.NOTHING, Show.REFUSED):
        return studies
    return f"{count(table.events, table.total)} in {studies}"


def _summary(row: Row, pooled: Pooled) -> Summary:
    return Summary(METHODS[row], pooled.estimate, pooled.low, pooled.high)


def _prediction(answer: PoolAnswer) -> tuple[float, float] | None:
    """Return the reading row's range; below five studies it is too unsure to be drawn."""
    if not answer.show.verdict or answer.reading is None:
        return None
    low, high = answer.reading.pooled.prediction_low, answer.reading.pooled.prediction_high
    return (low, high) if math.isfinite(low) and math.isfinite(high) else None


def _weights(answer: PoolAnswer) -> Sequence[float | None]:
    """Return shares of the row to read, else of the headline, else none."""
    rows = [answer.reading.pooled] if answer.reading is not None else []
    if Row.HEADLINE in answer.rows:
        rows.append(answer.rows[Row.HEADLINE])
    if answer.show.pooled:
        for row in rows:
            if len(row.weights) == answer.k and all(map(math.isfinite, row.weights)):
                return row.weights
    return (None,) * answer.k


def _lines(item: PooledTable, level: float, method: str) -> tuple[StudyLine, ...]:
    cells = item.table.cells
    if not cells:
        return ()
    low, high = STUDY_INTERVALS[method](
        [cell.events for cell in cells], [cell.total for cell in cells], level=level
    )
    return tuple(
        StudyLine(
            label=cell.label,
            year=cell.year,
            events=cell.events,
            total=cell.total,
            low=float(low[i]),
            high=float(high[i]),
            weight=weight,
            marks=mark_letters(cell.marks),
            mark_words=mark_key(cell.marks),
            sources=cell.sources,
        )
        for i, (cell, weight) in enumerate(zip(cells, _weights(item.answer), strict=True))
    )
