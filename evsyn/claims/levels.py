"""'Lower in palliation than as a bridge': the review's one test of difference between levels."""

import math
from dataclasses import dataclass

from evsyn.cells.levels import level_names
from evsyn.claims.held import Held, held
from evsyn.claims.verdict import ClaimVerdict
from evsyn.extraction.claims import Claim, Relation
from evsyn.extraction.review import Review
from evsyn.pooling.difference import Difference, stratum_difference
from evsyn.terms import UNPLACED


@dataclass(frozen=True, slots=True)
class LevelsFound:
    """What was found of a claim that one level reports lower, or higher, than another.

    Parameters
    ----------
    verdict : ClaimVerdict
        ``BORNE_OUT`` or ``CONTRADICTED`` where the test of all levels and the interval of these
        two agree that they differ, and the test is not exploratory; ``NOTHING_HELD`` where one
        side has no series; else ``BEYOND``.
    relation : Relation
        Lower or higher.
    stratum, first, second : str
        The stratum and its two levels.
    here, there : Held
        The counts of the first and of the second.
    difference : Difference
        The review's test of difference between all levels.
    ratio, low, high : float or None
        Odds of the first over those of the second, with limits; ``None`` where not tested.
    """

    verdict: ClaimVerdict
    relation: Relation
    stratum: str
    first: str
    second: str
    here: Held
    there: Held
    difference: Difference
    ratio: float | None = None
    low: float | None = None
    high: float | None = None


def weigh_levels(review: Review, claim: Claim, relation: Relation, than: str) -> LevelsFound:
    """Weigh 'series of this level report lower, or higher, than series of that one'.

    Parameters
    ----------
    review : Review
        The review.
    claim : Claim
        A claim whose scope names one stratum.
    relation : Relation
        ``LOWER_THAN`` or ``HIGHER_THAN``.
    than : str
        The other level.

    Raises
    ------
    ValueError
        If its scope names no stratum.
    """
    stratum = next((name for name in claim.scope if name in review.plan.strata), None)
    if stratum is None:
        raise ValueError(f"levels are compared within a stratum; got {claim.scope!r}")
    first = claim.scope[stratum]
    names = [name for name in level_names(review.plan.strata[stratum]) if name != UNPLACED]
    sides = {name: held(review, claim, name) for name in names}
    here, there = sides[first], sides[than]
    difference = stratum_difference(
        {side.table.question: side.pooled for side in sides.values()},
        here.table.question.outcome,
        stratum,
        names,
        level=review.plan.pooling.level,
    )
    odds = _odds(difference, first, than)
    verdict = _verdict(difference, odds, relation)
    if here.lack is not None or there.lack is not None:
        verdict = ClaimVerdict.NOTHING_HELD
    ratio, low, high = odds or (None, None, None)
    return LevelsFound(
        verdict, relation, stratum, first, than, here, there, difference, ratio, low, high
    )


def _odds(difference: Difference, first: str, second: str) -> tuple[float, float, float] | None:
    """Return the odds ratio of two levels with its limits, the first over the second."""
    tested = () if difference.test is None else difference.test.differences
    for one in tested:
        if {one.first, one.second} == {first, second} and not math.isnan(one.estimate):
            if one.first == first:
                return math.exp(one.estimate), math.exp(one.low), math.exp(one.high)
            return math.exp(-one.estimate), math.exp(-one.high), math.exp(-one.low)
    return None


def _verdict(
    difference: Difference, odds: tuple[float, float, float] | None, relation: Relation
) -> ClaimVerdict:
    test = difference.test
    if test is None or odds is None or test.exploratory or test.p >= 1 - test.level:
        return ClaimVerdict.BEYOND
    _, low, high = odds
    if low <= 1 <= high:
        return ClaimVerdict.BEYOND
    is_lower = high < 1
    is_said = is_lower is (relation is Relation.LOWER_THAN)
    return ClaimVerdict.BORNE_OUT if is_said else ClaimVerdict.CONTRADICTED
