"""Weigh a claim: by its own weigher first, then by its words."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TypeAlias

from evsyn.audit.unit_audit import UnitAudit
from evsyn.claims.evidence import EvidenceFound, weigh_evidence
from evsyn.claims.guideline import GuidelineFound, weigh_guideline
from evsyn.claims.overreach import Kind, Overreach, overreaches
from evsyn.claims.own import OwnFound, weigh_own
from evsyn.claims.verdict import ClaimVerdict
from evsyn.extraction.claims import About, Claim
from evsyn.extraction.guidelines import Guidelines
from evsyn.extraction.review import Review

Found: TypeAlias = EvidenceFound | OwnFound | GuidelineFound


@dataclass(frozen=True, slots=True)
class Weighed:
    """A claim, weighed.

    Parameters
    ----------
    claim : Claim
        The claim.
    found : Found or None
        What its weigher found; ``None`` where it is withheld.
    overreach : tuple of Overreach
        Words in it that no such count can carry.
    """

    claim: Claim
    found: Found | None
    overreach: tuple[Overreach, ...] = ()

    @property
    def verdict(self) -> ClaimVerdict | None:
        """The verdict, never ``BORNE_OUT`` beside such words; ``None`` where it is withheld."""
        if self.found is None:
            return None
        if self.overreach and self.found.verdict is ClaimVerdict.BORNE_OUT:
            return ClaimVerdict.BEYOND
        return self.found.verdict


def weigh(
    review: Review,
    claim: Claim,
    guidelines: Guidelines | None,
    own: UnitAudit | None,
    *,
    withhold: bool = False,
) -> Weighed:
    """Weigh one claim.

    Parameters
    ----------
    review : Review
        A review without faults.
    claim : Claim
        A claim without faults.
    guidelines : Guidelines or None
        What is recorded of guidelines beside the review.
    own : UnitAudit or None
        A unit's figures and where each stands, where claims about it are to be weighed.
    withhold : bool
        Whether claims about the unit are withheld.
    """
    if claim.about is About.UNIT and withhold:
        return Weighed(claim, None)
    spotted = overreaches(claim.says)
    if claim.about is About.GUIDELINE:
        found = weigh_guideline(claim, guidelines)
        return Weighed(claim, found, _beyond_the_statement(spotted, found))
    if claim.about is About.UNIT:
        return Weighed(claim, weigh_own(review, claim, own), spotted)
    return Weighed(claim, weigh_evidence(review, claim), spotted)


def _beyond_the_statement(
    spotted: Sequence[Overreach], found: GuidelineFound
) -> tuple[Overreach, ...]:
    """Keep the words that the recorded statement does not use itself.

    That a guideline states something is a fact about a text; but it must state it.
    """
    said = "" if found.statement is None else found.statement.statement.casefold()
    return tuple(
        one for one in spotted if one.kind is not Kind.PASS_MARK and one.word.casefold() not in said
    )
