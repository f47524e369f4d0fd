"""Choose the weigher of a claim about the unit."""

from dataclasses import dataclass
from typing import TypeAlias

from evsyn.audit.standing import Standing, standings
from evsyn.audit.unit_audit import unit_answers
from evsyn.claims.unit_counts import OwnLackFound, UnitLack, unit_tally
from evsyn.claims.unit_levels import OwnLevelsFound, weigh_own_levels
from evsyn.claims.unit_place import OwnPlaceFound, weigh_own_place
from evsyn.claims.unit_rate import OwnRateFound, weigh_own_rate
from evsyn.extraction.claim_value import amount
from evsyn.extraction.claims import EVIDENCE, Claim
from evsyn.extraction.review import Review
from evsyn.extraction.unit import Unit

OwnFound: TypeAlias = OwnRateFound | OwnPlaceFound | OwnLevelsFound | OwnLackFound


@dataclass(frozen=True, slots=True)
class OwnFigures:
    """A unit's figures, and where each of its counts stands."""

    unit: Unit
    standings: tuple[Standing, ...]


def own_figures(review: Review, unit: Unit) -> OwnFigures:
    """Place every count of a unit, its own series left out of what it is set against."""
    return OwnFigures(unit, standings(unit, unit_answers(review, unit), review.plan))


def weigh_own(review: Review, claim: Claim, own: OwnFigures | None) -> OwnFound:
    """Weigh a claim about the unit.

    Parameters
    ----------
    review : Review
        The review it is set against.
    claim : Claim
        A claim about the unit, without faults.
    own : OwnFigures or None
        The unit's figures, where they are given.
    """
    relation = claim.relation
    if own is None or relation is None:
        return OwnLackFound(UnitLack.NO_FILE)
    tally = unit_tally(review, own.unit, claim)
    if isinstance(tally, UnitLack):
        return OwnLackFound(tally)
    if claim.than is None:
        return weigh_own_rate(tally, relation, None if claim.value is None else amount(claim.value))
    if claim.than == EVIDENCE:
        return weigh_own_place(tally, relation, own.standings)
    other = unit_tally(review, own.unit, claim, claim.than)
    if isinstance(other, UnitLack):
        return OwnLackFound(other)
    return weigh_own_levels(tally, other, relation)
