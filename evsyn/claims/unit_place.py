"""'Ours is lower than the literature': the unit's place among ordinary new units, never overlap."""

from collections.abc import Sequence
from dataclasses import dataclass

from evsyn.audit.counts import UnitTally
from evsyn.audit.standing import Standing
from evsyn.audit.verdict import Verdict
from evsyn.claims.verdict import ClaimVerdict
from evsyn.extraction.claims import Relation


@dataclass(frozen=True, slots=True)
class OwnPlaceFound:
    """What was found of a claim that sets the unit's rate against the review.

    Parameters
    ----------
    verdict : ClaimVerdict
        ``BORNE_OUT`` or ``CONTRADICTED`` where the count lies outside the range of ordinary new
        units and neither window nor denominator differs; else ``BEYOND``.
    relation : Relation
        Lower or higher.
    tally : UnitTally
        The unit's count.
    standing : Standing or None
        Its place; ``None`` where the claim crosses strata, which are audited one by one.
    """

    verdict: ClaimVerdict
    relation: Relation
    tally: UnitTally
    standing: Standing | None


def weigh_own_place(
    tally: UnitTally, relation: Relation, standings: Sequence[Standing]
) -> OwnPlaceFound:
    """Weigh 'ours is lower, or higher, than the literature'.

    Parameters
    ----------
    tally : UnitTally
        The unit's count.
    relation : Relation
        ``LOWER_THAN`` or ``HIGHER_THAN``.
    standings : sequence of Standing
        Where each count of the unit stands.
    """
    standing = next(
        (
            one
            for one in standings
            if one.question == tally.question
            and (one.basis, one.window) == (tally.basis, tally.window)
        ),
        None,
    )
    return OwnPlaceFound(_verdict(standing, relation), relation, tally, standing)


def _verdict(standing: Standing | None, relation: Relation) -> ClaimVerdict:
    if standing is None or standing.differs:
        return ClaimVerdict.BEYOND
    extremes = standing.extremes
    found = {standing.verdict}
    if extremes is not None:
        found |= {extremes.best.verdict, extremes.worst.verdict}
    if found not in ({Verdict.FEWER}, {Verdict.MORE}):
        return ClaimVerdict.BEYOND
    is_lower = found == {Verdict.FEWER}
    is_said = is_lower is (relation is Relation.LOWER_THAN)
    return ClaimVerdict.BORNE_OUT if is_said else ClaimVerdict.CONTRADICTED
