"""Why a count is not compared, why it gets no verdict, and what to bear in mind."""

from enum import StrEnum

from evsyn.audit.comparable import Comparable
from evsyn.audit.comparison import Comparison
from evsyn.audit.counts import UnitTally
from evsyn.audit.predictive import MOST_CASES, knows_spread, spread_used
from evsyn.audit.verdict import Verdict
from evsyn.extraction.plan import Plan
from evsyn.extraction.unit import Unit
from evsyn.pooling.answer import Show
from evsyn.pooling.tables import PooledTable
from evsyn.terms import OVERALL, UNPLACED, CountedBy


class Reason(StrEnum):
    """Why a count is not compared, or gets no verdict."""

    NOT_POOLED = "not_pooled"
    NO_STUDY = "no_study"
    ONE_STUDY = "one_study"
    TWO_STUDIES = "two_studies"
    ALL_ZERO = "all_zero"
    ALL_FULL = "all_full"
    REFUSED = "not_pooled_by_plan"
    NO_READING = "no_row_to_read"
    BASIS = "basis_differs"
    NO_FOLLOW_UP = "follow_up_unknown"
    TOO_MANY_CASES = "too_many_cases"
    CASE_MIX = "case_mix"
    FEW_STUDIES = "three_or_four_studies"
    NO_SPREAD = "spread_unknown"
    TOO_FEW_CASES = "too_few_cases"
    WINDOW = "window_forbids_it"


class Caveat(StrEnum):
    """What to bear in mind, beside how the denominators and windows differ."""

    UNRELIABLE = "unreliable"
    SPREAD_GUESSED = "spread_guessed"
    SPREAD_NEAR_NOTHING = "spread_near_nothing"
    UNPLACED = "mixed_or_not_stated"
    SPLIT = "groups_not_added"
    PARTIAL = "groups_missing"
    NOT_BY_PATIENT = "not_counted_by_patient"
    FOLLOWED_SHORTER = "followed_shorter_than_the_window"


#: Why nothing can be set against a pool, by how much of it may be shown.
NO_ROW = {
    Show.NOTHING: Reason.NO_STUDY,
    Show.ONE: Reason.ONE_STUDY,
    Show.TWO: Reason.TWO_STUDIES,
    Show.ALL_ZERO: Reason.ALL_ZERO,
    Show.ALL_FULL: Reason.ALL_FULL,
    Show.REFUSED: Reason.REFUSED,
}


def no_comparison(
    tally: UnitTally, unit: Unit, held: PooledTable | None, judged: Comparable, plan: Plan
) -> Reason | None:
    """Return why a count cannot be set against its pool; ``None`` where it can.

    A late event is a share of nothing unless it is told how long the cases were followed, so that
    comes first.
    """
    if _lacks_follow_up(tally, unit, plan):
        return Reason.NO_FOLLOW_UP
    if held is None:
        return Reason.NOT_POOLED
    show = held.answer.show
    if show in NO_ROW:
        return NO_ROW[show]
    reading = held.answer.reading
    if reading is None or spread_used(reading) is None:
        return Reason.NO_READING
    if not judged.at_all:
        return Reason.BASIS
    if tally.total + tally.unknown > MOST_CASES:
        return Reason.TOO_MANY_CASES
    return Reason.CASE_MIX if tally.question.stratum == OVERALL else None


def no_verdict(comparison: Comparison, held: PooledTable, total: int) -> Reason | None:
    """Return why a comparison ends without a verdict; ``None`` where it has one."""
    if comparison.verdict is not Verdict.NONE:
        return None
    if not held.answer.show.verdict:
        return Reason.FEW_STUDIES
    reading = held.answer.reading
    if reading is not None and not knows_spread(reading):
        return Reason.NO_SPREAD
    reach = comparison.limits
    # The range leaves room on neither side, whatever may be said.
    if reach.low == 0 and reach.high == total:
        return Reason.TOO_FEW_CASES
    return Reason.WINDOW


def caveats(
    tally: UnitTally,
    unit: Unit,
    held: PooledTable | None,
    comparison: Comparison | None,
    plan: Plan,
) -> tuple[Caveat, ...]:
    """Return what to bear in mind of a count."""
    show = None if held is None or comparison is None else held.answer.show
    told = {
        Caveat.UNRELIABLE: show is Show.FEW,
        Caveat.SPREAD_GUESSED: show in (Show.FEW, Show.SOME),
        Caveat.SPREAD_NEAR_NOTHING: comparison is not None and comparison.used_larger_spread,
        Caveat.UNPLACED: tally.question.level == UNPLACED,
        Caveat.SPLIT: tally.is_split,
        Caveat.PARTIAL: tally.is_partial,
        Caveat.NOT_BY_PATIENT: unit.counted_by is not CountedBy.PATIENT,
        Caveat.FOLLOWED_SHORTER: _followed_shorter(tally, unit, plan),
    }
    return tuple(caveat for caveat, holds in told.items() if holds)


def _lacks_follow_up(tally: UnitTally, unit: Unit, plan: Plan) -> bool:
    window = plan.windows.get(tally.window)
    told = unit.followed is not None and unit.followed.median_months is not None
    return window is not None and window.is_open and not told


def _followed_shorter(tally: UnitTally, unit: Unit, plan: Plan) -> bool:
    window = plan.windows.get(tally.window)
    least = None if unit.followed is None else unit.followed.least_days
    days = None if window is None else window.days
    return least is not None and days is not None and least < days
