"""Choose the weigher of a claim about the unit."""

from typing import TypeAlias

from evsyn.audit.unit_audit import UnitAudit
from evsyn.claims.unit_counts import OwnLackFound, UnitLack, unit_tally
from evsyn.claims.unit_levels import OwnLevelsFound, weigh_own_levels
from evsyn.claims.unit_place import OwnPlaceFound, weigh_own_place
from evsyn.claims.unit_rate import OwnRateFound, weigh_own_rate
from evsyn.extraction.claim_value import amount
from evsyn.extraction.claims import EVIDENCE, Claim
from evsyn.extraction.review import Review

OwnFound: TypeAlias = OwnRateFound | OwnPlaceFound | OwnLevelsFound | OwnLackFound


def weigh_own(review: Review, claim: Claim, own: UnitAudit | None) -> OwnFound:
    """Weigh a claim about the unit.

    Parameters
    ----------
    review : Review
        The review it is set against.
    claim : Claim
        A claim about the unit, without faults.
    own : UnitAudit or None
        The unit's figures and where each of them stands, where they are given.
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
        return weigh_own_place(tally, relation, own)
    other = unit_tally(review, own.unit, claim, claim.than)
    if isinstance(other, UnitLack):
        return OwnLackFound(other)
    return weigh_own_levels(tally, other, relation)
