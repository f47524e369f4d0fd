"""The highest and the lowest series of a pool, and how many lie on one side of a number."""

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction

from evsyn.cells.cell import CellTable
from evsyn.cells.levels import arm_level, labelled_strata
from evsyn.claims.reach import Reach
from evsyn.claims.series import OneSeries, SeriesCount, count_series, one_series
from evsyn.extraction.claim_value import Side
from evsyn.extraction.plan import Plan, Target
from evsyn.extraction.review import Review
from evsyn.extraction.study import Arm
from evsyn.pooling.tables import PooledTable
from evsyn.reporting.pocket.facts import arms_pooled
from evsyn.terms import UNPLACED, Better
from evsyn.wording.numbers import percent
from evsyn.wording.pocket_series import Extreme, recruited_words


def extreme_series(review: Review, table: CellTable) -> tuple[Extreme | None, Extreme | None]:
    """Return the highest and the lowest series; of several with one rate, the largest.

    Parameters
    ----------
    review : Review
        The review.
    table : CellTable
        The series.
    """
    rows = [one_series(cell) for cell in table.cells]
    if not rows:
        return None, None
    high, low = max(row.rate for row in rows), min(row.rate for row in rows)
    return _at(review, rows, high), _at(review, rows, low)


def _at(review: Review, rows: list[OneSeries], rate: Fraction) -> Extreme:
    alike = [row for row in rows if row.rate == rate]
    largest = max(alike, key=lambda row: row.total)
    study = review.study(largest.study)
    if study is None:
        raise ValueError(f"{largest.study} is not a study of the review")
    levels = tuple(
        (declared.label, _levels(arms_pooled(study, review.plan), name, declared.levels))
        for name, declared in labelled_strata(review.plan).items()
    )
    return Extreme(largest, len(alike), recruited_words(study), levels)


def _levels(arms: Iterable[Arm], stratum: str, words: dict[str, str]) -> str:
    """Return the levels that arms state, in words; empty where none does."""
    stated = dict.fromkeys(arm_level(arm, stratum) for arm in arms)
    return " and ".join(words[level] for level in stated if level != UNPLACED)


@dataclass(frozen=True, slots=True)
class OneSide:
    """Series counted on the welcome side of a number.

    Parameters
    ----------
    series : SeriesCount
        The count.
    words : str
        Side and number, as ``below 6.0%``.
    target : Target or None
        The plan's target, if the number is one; else it is the typical rate.
    """

    series: SeriesCount
    words: str
    target: Target | None


def welcome_reach(plan: Plan, outcome: str, pooled: PooledTable) -> OneSide | None:
    """Count the series on the welcome side of the plan's target, or else of the typical rate.

    The number counted by is the one printed, so that the count can be made again from the page.

    Parameters
    ----------
    plan : Plan
        The plan.
    outcome : str
        An outcome of it.
    pooled : PooledTable
        All its series.

    Returns
    -------
    OneSide or None
        ``None`` with neither target nor typical rate, and where one rounds to nothing or all.
    """
    target, reading = plan.audit.targets.get(outcome), pooled.answer.reading
    if target is None and reading is None:
        return None
    rate = reading.pooled.estimate if target is None and reading is not None else 0.0
    at = Fraction(round(1000 * rate), 1000) if target is None else Fraction(str(target.rate))
    if not 0 < at < 1:
        return None
    number = percent(float(at)) if (1000 * at).denominator == 1 else f"{float(100 * at):g}%"
    is_below = plan.outcomes[outcome].better is Better.FEWER
    reach = Reach(Fraction(0), at, Side.BELOW) if is_below else Reach(at, Fraction(1), Side.ABOVE)
    words = f"{'below' if is_below else 'above'} {number}"
    return OneSide(count_series(pooled.table, reach), words, target)
