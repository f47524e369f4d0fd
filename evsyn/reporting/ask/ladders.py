"""Answers to a question as a ladder: each pooled answer against the one that stands."""

from collections.abc import Iterable, Sequence

from evsyn.extraction.review import Review
from evsyn.figures.invented import Invented
from evsyn.figures.ladder import LadderContent, Rung
from evsyn.pooling.answer import PoolAnswer
from evsyn.pooling.lean import Leaning
from evsyn.pooling.over_time import UpTo
from evsyn.pooling.tables import PooledTable
from evsyn.pooling.vary import Varied
from evsyn.reporting.ask.frame import named
from evsyn.wording.ask_ladder import (
    ALL_STUDIES,
    LEAN,
    NONE_READ,
    OVER_TIME,
    VARY,
    LadderWords,
    step_words,
)
from evsyn.wording.numbers import cell, count, counted
from evsyn.wording.status import status_line


def lean_ladder(review: Review, leaning: Leaning) -> LadderContent:
    """Return the answer without each study, the largest shift first."""
    ordered = sorted(leaning.studies, key=lambda one: -abs(one.shift))
    rungs = (
        _rung(one.row.label, count(one.row.events, one.row.total), one.without.answer)
        for one in ordered
    )
    return _ladder(review, leaning.base, LEAN, rungs)


def over_time_ladder(review: Review, grown: tuple[PooledTable, Sequence[UpTo]]) -> LadderContent:
    """Return the answer with the papers up to each year, where there is one to read."""
    base, steps = grown
    rungs = (
        _rung(step_words(step), _studies(step.pooled.answer), step.pooled.answer)
        for step in steps
        if step.pooled.answer.show.verdict
    )
    return _ladder(review, base, OVER_TIME, rungs)


def vary_ladder(review: Review, found: Varied) -> LadderContent:
    """Return the answer over other sets of studies."""
    rungs = (_rung(one.label, _studies(one.pooled.answer), one.pooled.answer) for one in found.sets)
    return _ladder(review, found.base, VARY, rungs)


def _ladder(
    review: Review, base: PooledTable, words: LadderWords, rungs: Iterable[Rung]
) -> LadderContent:
    label, group = named(review, base.table.question)
    return LadderContent(
        title=words.title.format(label=label),
        subtitle=words.subtitle.format(group=group),
        headings=words.headings,
        base=_rung(ALL_STUDIES, _studies(base.answer), base.answer),
        rungs=tuple(rungs),
        caption=words.caption.format(level=review.plan.pooling.level),
        status_line=status_line(review),
        invented=Invented.ALL if review.invented else Invented.NOTHING,
    )


def _rung(label: str, note: str, answer: PoolAnswer) -> Rung:
    if answer.reading is None:
        return Rung(label, note, NONE_READ)
    row = answer.reading.pooled
    value = cell(row.estimate, row.low, row.high)
    return Rung(label, note, value, row.estimate, row.low, row.high)


def _studies(answer: PoolAnswer) -> str:
    return counted(answer.k, "study", "studies")
