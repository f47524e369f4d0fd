"""A regression on one number as a drawing."""

import math
from collections.abc import Callable, Iterator

import numpy as np
from scipy.special import expit

from evsyn.cells.cell import Cell
from evsyn.cells.covariates import Covariate, Kind
from evsyn.extraction.review import Review
from evsyn.figures.bubbles import Bubble, BubbleContent, LinePlace
from evsyn.figures.invented import Invented
from evsyn.pooling.on_covariates import OnCovariates, rate_at
from evsyn.pooling.regression import RegressionStatus
from evsyn.pooling.small_asked import SmallShares
from evsyn.reporting.ask.frame import named
from evsyn.wording import ask_bubbles as words
from evsyn.wording.ask_regress import CAUTION
from evsyn.wording.ask_small import CAUTION as SMALL_CAUTION
from evsyn.wording.numbers import counted
from evsyn.wording.status import status_line

#: Places at which the line is computed, and most values named below it.
_PLACES, _MOST_TICKS = 41, 8
_SIZE = Covariate("size", Kind.SIZE)

#: Rate and limits at a value.
RateAt = Callable[[float], tuple[float, float, float]]


def can_be_drawn(asked: OnCovariates) -> bool:
    """Tell whether there is one number with a line."""
    is_made = asked.found is not None and asked.found.quoted.status is RegressionStatus.FITTED
    return is_made and len(asked.covariates) == 1 and asked.covariates[0].is_number


def regress_bubbles(review: Review, asked: OnCovariates) -> BubbleContent:
    """Return the studies over one number, with the line of the model that is read.

    Parameters
    ----------
    review : Review
        The review.
    asked : OnCovariates
        A regression on one number, for which :func:`can_be_drawn` holds.
    """
    (covariate,) = asked.covariates
    assert asked.found is not None
    rows = [(row.cell, float(row.values[0])) for row in asked.gathered.rows]

    def line(value: float) -> tuple[float, float, float]:
        at = rate_at(asked, value)
        return at.rate, at.low, at.high

    caption = words.bubble_caption(
        is_exact=asked.found.few_events, level=review.plan.pooling.level, caution=CAUTION
    )
    return _content(review, asked.outcome, "", covariate, rows, line, caption)


def small_bubbles(review: Review, asked: SmallShares) -> BubbleContent:
    """Return the studies over their size, with the line of the model that is read.

    Parameters
    ----------
    review : Review
        The review.
    asked : SmallShares
        A pool that was tested.
    """
    exact, question = asked.exact, asked.pooled.table.question

    def line(size: float) -> tuple[float, float, float]:
        if not asked.reads_exact or exact is None:
            return (asked.rate_at(size),) * 3
        at = exact.at([1 / size])
        rate, low, high = (float(expit(one)) for one in (at.centre, at.low, at.high))
        return rate, low, high

    rows = [(cell, float(cell.total)) for cell in asked.pooled.table.cells]
    caption = words.small_caption(
        is_exact=asked.reads_exact, level=review.plan.pooling.level, caution=SMALL_CAUTION
    )
    _, group = named(review, question)
    return _content(review, question.outcome, group, _SIZE, rows, line, caption)


def _content(
    review: Review,
    outcome: str,
    group: str,
    covariate: Covariate,
    rows: list[tuple[Cell, float]],
    line: RateAt,
    caption: str,
) -> BubbleContent:
    declared = review.plan.outcomes[outcome]
    values = [value for _, value in rows]
    studies = counted(len(rows), "study", "studies")
    parts = [part for part in (group, studies, f"{declared.better} is better") if part]
    return BubbleContent(
        title=words.bubble_title(declared.label, covariate),
        subtitle="; ".join(parts),
        up=words.up_words(declared.events, review.plan.population),
        axis_starts=words.AXIS_STARTS,
        across=words.across_words(covariate),
        ticks=tuple(_ticks(covariate, min(values), max(values))),
        bubbles=tuple(
            Bubble(
                _place(covariate, value),
                cell.events / cell.total,
                cell.total,
                cell.label,
                words.bubble_said(cell.label, covariate, value, cell.events, cell.total),
                cell.sources,
            )
            for cell, value in rows
        ),
        line=tuple(_line(line, covariate, min(values), max(values))),
        caption=caption,
        status_line=status_line(review),
        invented=Invented.ALL if review.invented else Invented.NOTHING,
    )


def _place(covariate: Covariate, value: float) -> float:
    return math.log2(value) if covariate.kind is Kind.SIZE else value


def _line(at: RateAt, covariate: Covariate, low: float, high: float) -> Iterator[LinePlace]:
    ends = (_place(covariate, low), _place(covariate, high))
    for place in np.linspace(*ends, _PLACES).tolist():
        yield LinePlace(place, *at(2**place if covariate.kind is Kind.SIZE else place))


def _ticks(covariate: Covariate, low: float, high: float) -> Iterator[tuple[float, str]]:
    """Yield round values: of a size 1, 2 and 5 times powers of ten, else even steps."""
    if covariate.kind is Kind.SIZE:
        for power in range(math.floor(math.log10(low)), math.ceil(math.log10(high)) + 1):
            for digit in (1, 2, 5):
                value = digit * 10**power
                yield math.log2(value), f"{value:,}"
        return
    step = _step(high - low)
    for number in range(math.floor(low / step), math.ceil(high / step) + 1):
        value = number * step
        yield value, f"{value:g}"


def _step(reach: float) -> float:
    power = 10.0 ** math.floor(math.log10(reach / _MOST_TICKS))
    return next(d * power for d in (1, 2, 5, 10) if reach / (d * power) <= _MOST_TICKS)
