"""From pooled tables to what the figure says."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from evsyn.effects.intervals import STUDY_INTERVALS
from evsyn.figures.forest.content import (
    Band,
    ForestContent,
    StudyLine,
    Summary,
    UnitLine,
)
from evsyn.figures.invented import Invented
from evsyn.pooling.answer import PoolAnswer, Row, Show
from evsyn.pooling.result import Pooled
from evsyn.pooling.tables import PooledTable
from evsyn.terms import Better, Source
from evsyn.wording.forest import IF_ONE_RATE, METHODS, words_at
from evsyn.wording.numbers import count, counted
from evsyn.wording.rows import headline_name, mark_key, mark_letters


@dataclass(frozen=True, slots=True)
class PoolToDraw:
    """One pool, and what its band says beside it.

    Parameters
    ----------
    pooled : PooledTable
        The pool.
    title, sentence : str
        Name of the band, and the sentence under it.
    short_sentence : str
        For slides, where the full one takes too much room.
    unit : UnitLine or None
        The unit's own row, where it answers the same question.
    has_rows : bool
        Whether the studies are drawn; if not the summary stands alone, as for all studies under
        their strata.
    """

    pooled: PooledTable
    title: str
    sentence: str
    short_sentence: str = ""
    unit: UnitLine | None = None
    has_rows: bool = True


def forest_content(
    pools: Sequence[PoolToDraw],
    *,
    title: str,
    subtitle: str,
    status_line: str,
    caption: str,
    short_caption: str = "",
    better: Better,
    invented: Invented,
    mark: str = "",
    short_mark: str = "",
    show_two: bool = False,
    level: float = 0.95,
    study_interval: str = "clopper_pearson",
) -> ForestContent:
    """Return what a forest plot of some pools says.

    Parameters
    ----------
    pools : sequence of PoolToDraw
        One band each, in order.
    title, subtitle : str
        The outcome; the denominator and window wanted, and found.
    status_line, caption, short_caption : str
        Words for the foot; the last for slides, where the caption takes too much room.
    better : Better
        Which way the outcome should go.
    invented : Invented
        Which of the figures are invented.
    mark, short_mark : str
        Who may see it; the second for slides.
    show_two : bool
        Whether two studies are added up and drawn; they are never pooled.
    level : float
        Two-sided level of the row intervals.
    study_interval : str
        Method of the row intervals, one for all of them, by its name.

    Raises
    ------
    ValueError
        If there is no pool.
    """
    if not pools:
        raise ValueError("a forest plot needs at least one pool")
    drawn = [cell for pool in pools if pool.has_rows for cell in pool.pooled.table.cells]
    return ForestContent(
        title=title,
        subtitle=subtitle,
        better=better,
        bands=tuple(_band(pool, show_two, level, study_interval) for pool in pools),
        status_line=status_line,
        caption=caption,
        mark_key=mark_key(frozenset(mark for cell in drawn for mark in cell.marks)),
        invented=invented,
        words=words_at(level),
        short_caption=short_caption,
        mark=mark,
        short_mark=short_mark,
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


def _band(pool: PoolToDraw, show_two: bool, level: float, study_interval: str) -> Band:
    item = pool.pooled
    answer = item.answer
    reading = answer.reading
    headline = answer.rows.get(Row.HEADLINE) if answer.show.pooled else None
    is_headline = reading is not None and reading.row is Row.HEADLINE
    apart = reading if reading is not None and answer.show.pooled and not is_headline else None
    wider = answer.second_prediction if answer.show.verdict and reading is not None else None
    return Band(
        title=pool.title,
        counts=_counts(item),
        lines=_lines(item, level, study_interval) if pool.has_rows else (),
        show=answer.show,
        sentence=pool.sentence,
        short_sentence=pool.short_sentence,
        headline=None if headline is None else _summary(Row.HEADLINE, headline),
        reading=None if apart is None else _summary(apart.row, apart.pooled),
        reading_is_headline=is_headline and headline is not None,
        both=_both(answer) if show_two else None,
        prediction=_prediction(answer),
        wider_prediction=None if wider is None else (wider.low, wider.high),
        unit=pool.unit,
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
    method = headline_name(pooled.between) if row is Row.HEADLINE else METHODS[row]
    return Summary(method, pooled.estimate, pooled.low, pooled.high)


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
