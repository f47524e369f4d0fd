"""Words for how far an answer hangs on each of its counts."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from evsyn.pooling.answer import PoolAnswer, Reading, Show
from evsyn.pooling.disputed import (
    MOST_EVENTS,
    DisputedPool,
    DisputedStudy,
    Side,
    Variant,
    side_of,
)
from evsyn.pooling.tables import PooledTable
from evsyn.wording.numbers import count, counted, percent
from evsyn.wording.pooled import UNCONSTRAINED
from evsyn.wording.rows import ROW_IN_SENTENCE

SIDES = {
    Side.BELOW: "comes to lie below",
    Side.HOLDS: "comes to hold",
    Side.ABOVE: "comes to lie above",
}


def says_otherwise(
    base: PooledTable, variant: PooledTable, *, target: float | None
) -> tuple[str, ...]:
    """Say what would be said otherwise of a changed pool, beyond its numbers; empty if nothing.

    Parameters
    ----------
    base, variant : PooledTable
        The pool as it stands, where something is pooled, and changed.
    target : float or None
        The plan's fixed rate of the outcome, if it has one.
    """
    said = list(_facts(base.answer, variant.answer))
    if target is not None:
        before, after = side_of(base.answer, target), side_of(variant.answer, target)
        if before is not None and after is not None and before is not after:
            said.append(f"the interval {SIDES[after]} the plan's rate of {percent(target)}")
    return tuple(said)


def _facts(base: PoolAnswer, variant: PoolAnswer) -> Iterator[str]:
    """Yield each way in which the sentences of two answers differ in more than their numbers."""
    if not variant.show.pooled:
        yield "nothing is pooled"
        return
    if variant.reading is None or base.reading is None:
        if variant.reading is not base.reading:
            yield "no row can be read" if variant.reading is None else "a row can be read"
        return
    if variant.reading.row is not base.reading.row:
        yield f"{ROW_IN_SENTENCE[variant.reading.row]} is read"
    if variant.show.verdict is not base.show.verdict:
        yield f"{'a' if variant.show.verdict else 'no'} range for a new setting is given"
        return
    if not variant.show.verdict:
        return
    if variant.show is not base.show:
        yield f"the spread is {'' if variant.show is Show.SOME else 'not '}called a rough guess"
    if (variant.second_prediction is None) is not (base.second_prediction is None):
        seen = "some" if variant.second_prediction is None else "next to no"
        yield f"{seen} spread is seen between the studies"
    if _is_wide(variant.reading) is not _is_wide(base.reading):
        wide = _is_wide(variant.reading)
        yield f"the studies {'do not ' if wide else ''}constrain a new setting"


def _is_wide(reading: Reading) -> bool:
    return reading.pooled.prediction_high - reading.pooled.prediction_low > UNCONSTRAINED


@dataclass(frozen=True, slots=True)
class StudySaid:
    """What would be said otherwise if one study's count were another.

    Parameters
    ----------
    study : DisputedStudy
        The study with its variants.
    counts : tuple of tuple of str
        For each of its counts, in order, what would be said otherwise.
    without : tuple of str
        The same with the study left out.
    """

    study: DisputedStudy
    counts: tuple[tuple[str, ...], ...]
    without: tuple[str, ...]

    @property
    def fewest(self) -> int | None:
        """The smallest number of events that would change what is said; ``None`` if none does."""
        pairs = zip(self.study.counts, self.counts, strict=True)
        return min((abs(one.change or 0) for one, said in pairs if said), default=None)


def studies_said(pool: DisputedPool, *, target: float | None) -> tuple[StudySaid, ...]:
    """Weigh every variant of a pool; studies in the order of the pool."""

    def said(variant: Variant) -> tuple[str, ...]:
        return says_otherwise(pool.base, variant.pooled, target=target)

    return tuple(
        StudySaid(study, tuple(map(said, study.counts)), said(study.without))
        for study in pool.studies
    )


def disputed_sentence(said: Sequence[StudySaid], *, target: float | None) -> str:
    """Say how many studies could change what is said, by a few events or by being left out."""
    k = len(said)
    if not k:
        return "Nothing is pooled here, so no count can change an answer."
    by_count = sum(one.fewest is not None for one in said)
    by_leaving = sum(bool(one.without) for one in said)
    cross = "" if target is None else f", or on which side of {percent(target)} the interval lies"
    of = f"of {counted(k, 'study', 'studies')}"
    return (
        f"Each count was changed by up to {MOST_EVENTS} events, its total held, and each study was "
        f"left out, one at a time. That changes what the sentence says beyond its numbers{cross}, "
        f"for {by_count or 'none'} {of} by a count, and for {by_leaving or 'none'} by leaving it "
        "out."
    )


def otherwise_lines(said: Sequence[StudySaid]) -> list[str]:
    """Return one line a study whose count or presence changes what is said."""
    lines = []
    for one in said:
        told = [
            f"With {events_words(variant.change or 0)}: {', '.join(words)}."
            for variant, words in zip(one.study.counts, one.counts, strict=True)
            if words and abs(variant.change or 0) == one.fewest
        ]
        told += [f"Left out: {', '.join(one.without)}."] if one.without else []
        if told:
            row = one.study.row
            lines.append(f"{row.label}, {count(row.events, row.total)}. {' '.join(told)}")
    return lines


def comes_in_lines(said: Sequence[StudySaid]) -> list[str]:
    """Say who is pooled in place of a study left out, because they share patients."""
    return [
        f"Without {one.study.row.label}, {' and '.join(one.study.comes_in)} is pooled: they share "
        "patients."
        for one in said
        if one.study.comes_in
    ]


def events_words(change: int) -> str:
    """Write a change of a count.

    Examples
    --------
    >>> events_words(1), events_words(-3)
    ('1 event more', '3 events fewer')
    """
    return f"{counted(abs(change), 'event', 'events')} {'more' if change > 0 else 'fewer'}"


def shift_points(shift: float, decimals: int = 1) -> str:
    """Write a shift of a proportion in percentage points, with its sign.

    Examples
    --------
    >>> shift_points(0.0123), shift_points(-0.0001), shift_points(float("nan"))
    ('+1.2', '0.0', '')
    >>> shift_points(-0.0004, 2)
    '-0.04'
    """
    if math.isnan(shift):
        return ""
    written = f"{100 * shift:+.{decimals}f}"
    return written[1:] if float(written) == 0 else written
