"""Choose the weigher of a claim about the evidence."""

from dataclasses import dataclass
from typing import TypeAlias

from evsyn.claims.at_least import weigh_at_least
from evsyn.claims.bound import BoundFound, weigh_bound
from evsyn.claims.counted import CountFound
from evsyn.claims.equals import EqualsFound, weigh_equals
from evsyn.claims.held import Held, held
from evsyn.claims.levels import LevelsFound, weigh_levels
from evsyn.claims.most import weigh_most
from evsyn.claims.none_all import weigh_all, weigh_none
from evsyn.claims.reach import reach_of
from evsyn.claims.verdict import ClaimVerdict
from evsyn.extraction.claim_value import Side, amount, series_wanted
from evsyn.extraction.claims import Claim, Relation
from evsyn.extraction.review import Review


@dataclass(frozen=True, slots=True)
class LackFound:
    """A claim about the evidence of which the review holds nothing."""

    held: Held

    @property
    def verdict(self) -> ClaimVerdict:
        """Always ``NOTHING_HELD``."""
        return ClaimVerdict.NOTHING_HELD


EvidenceFound: TypeAlias = EqualsFound | BoundFound | CountFound | LevelsFound | LackFound


def weigh_evidence(review: Review, claim: Claim) -> EvidenceFound:
    """Weigh a claim about the evidence.

    Parameters
    ----------
    review : Review
        A review without faults.
    claim : Claim
        A claim about the evidence, without faults.

    Raises
    ------
    ValueError
        If the claim lacks what its relation needs.
    """
    relation = claim.relation
    if relation in (Relation.LOWER_THAN, Relation.HIGHER_THAN) and claim.than is not None:
        return weigh_levels(review, claim, relation, claim.than)
    counts = held(review, claim)
    if counts.lack is not None:
        return LackFound(counts)
    value = None if claim.value is None else amount(claim.value)
    if relation is Relation.NONE:
        return weigh_none(counts, value)
    if relation is Relation.ALL:
        return weigh_all(counts, value)
    if value is None:
        raise ValueError(f"'{relation}' is weighed by a number; got {claim.value!r}")
    match relation:
        case Relation.EQUALS:
            return weigh_equals(counts, value)
        case Relation.MOST:
            return weigh_most(counts, value)
        case Relation.AT_LEAST:
            wanted, of = series_wanted(claim.series or "") or (1, None)
            return weigh_at_least(counts, value, wanted, of)
        case Relation.BELOW:
            return weigh_bound(counts, reach_of(value, Side.BELOW))
        case Relation.ABOVE:
            return weigh_bound(counts, reach_of(value, Side.ABOVE))
        case _:
            return weigh_bound(counts, reach_of(value))
