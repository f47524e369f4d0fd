"""'Ours is lower than the literature': the unit's place among ordinary new units, never overlap."""

from dataclasses import dataclass

from evsyn.audit.comparable import Differs
from evsyn.audit.counts import UnitTally
from evsyn.audit.standardised import Standardised
from evsyn.audit.standing import Standing
from evsyn.audit.unit_audit import UnitAudit
from evsyn.audit.verdict import Verdict
from evsyn.claims.verdict import ClaimVerdict
from evsyn.extraction.claims import Relation
from evsyn.terms import OVERALL


@dataclass(frozen=True, slots=True)
class OwnPlaceFound:
    """What was found of a claim that sets the unit's rate against the review.

    Parameters
    ----------
    verdict : ClaimVerdict
        ``BORNE_OUT`` or ``CONTRADICTED`` where the count lies outside the range of ordinary new
        units, whichever way the unknown outcomes went, and neither window nor denominator
        differs; else ``BEYOND``.
    relation : Relation
        Lower or higher.
    tally : UnitTally
        The unit's count.
    audit : UnitAudit
        Where each count of the unit stands.
    standing : Standing or None
        The place of this one, of a level; ``None`` where the claim crosses strata, which are
        audited one by one.
    differs : tuple of Differs
        How denominators and windows differ.
    """

    verdict: ClaimVerdict
    relation: Relation
    tally: UnitTally
    audit: UnitAudit
    standing: Standing | None
    differs: tuple[Differs, ...]

    @property
    def whole(self) -> Standardised | None:
        """The place of the unit's whole, given its case mix; ``None`` of a level."""
        if self.tally.question.stratum != OVERALL:
            return None
        found = self.audit.whole(self.tally.question.outcome)
        return None if found is None else found.found

    @property
    def place(self) -> Verdict | None:
        """The verdict among ordinary units; ``None`` where the count is not compared."""
        if self.whole is not None:
            return self.whole.verdict
        if self.standing is None or self.standing.comparison is None:
            return None
        return self.standing.verdict


def weigh_own_place(tally: UnitTally, relation: Relation, audit: UnitAudit) -> OwnPlaceFound:
    """Weigh 'ours is lower, or higher, than the literature'.

    Parameters
    ----------
    tally : UnitTally
        The unit's count.
    relation : Relation
        ``LOWER_THAN`` or ``HIGHER_THAN``.
    audit : UnitAudit
        Where each count of the unit stands.
    """
    standing = next(
        (
            one
            for one in audit.standings
            if one.question == tally.question
            and (one.basis, one.window) == (tally.basis, tally.window)
        ),
        None,
    )
    found = OwnPlaceFound(ClaimVerdict.BEYOND, relation, tally, audit, standing, ())
    if found.whole is not None:
        differs = tuple(dict.fromkeys(d for level in found.whole.levels for d in level.differs))
    else:
        differs = () if standing is None else standing.differs
    verdict = ClaimVerdict.BEYOND if differs else _verdict(found)
    return OwnPlaceFound(verdict, relation, tally, audit, standing, differs)


def _verdict(found: OwnPlaceFound) -> ClaimVerdict:
    told = {found.place}
    if found.whole is not None and found.tally.unknown:
        return ClaimVerdict.BEYOND
    if found.standing is not None and found.standing.extremes is not None:
        extremes = found.standing.extremes
        told |= {extremes.best.verdict, extremes.worst.verdict}
    if told not in ({Verdict.FEWER}, {Verdict.MORE}):
        return ClaimVerdict.BEYOND
    is_lower = told == {Verdict.FEWER}
    is_said = is_lower is (found.relation is Relation.LOWER_THAN)
    return ClaimVerdict.BORNE_OUT if is_said else ClaimVerdict.CONTRADICTED
