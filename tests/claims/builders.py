"""Claims as a speaker would write them, weighed against a review.

The demo review and the units here are invented: with them logic is tested, and no value is checked
against them.
"""

from dataclasses import dataclass
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory

import yaml

from evsyn.audit.unit_audit import UnitAudit, unit_audit
from evsyn.claims.verdict import ClaimVerdict
from evsyn.claims.weigh import Weighed, weigh
from evsyn.extraction.guidelines import Guidelines
from evsyn.extraction.load import read_review, read_unit
from evsyn.extraction.load_claims import CheckedClaims, read_claims, read_guidelines
from evsyn.extraction.review import Review
from evsyn.wording.claims import ClaimWords, claim_words

ROOT = Path(__file__).parent.parent.parent
DEMO = ROOT / "studies" / "demo"
PUBLISHED = ROOT / "studies" / "published"

BORNE_OUT = ClaimVerdict.BORNE_OUT
CONTRADICTED = ClaimVerdict.CONTRADICTED
BEYOND = ClaimVerdict.BEYOND
NOTHING_HELD = ClaimVerdict.NOTHING_HELD

#: An invented unit whose counts are chosen for what can be said of them.
UNIT = """\
format: 1
unit: sloe
label: Sloe Cottage Hospital
invented: true
period: {from: 2022-01, to: 2025-12}
frozen_on: 2026-03-31
complete: true
follow_up: every patient for at least 90 days or to death
counted_by: patient
expected_cases: {count: 120, according_to: kits issued}
groups:
  - strata: {intent: palliation, device_generation: through_the_scope}
    patients: 60
    outcomes:
      perforation: {events: 0, total: 60, of: attempted, window: 30_days}
      technical_success: {events: 40, total: 60, of: attempted, window: at_procedure}
      migration: {events: 3, total: 60, of: attempted, window: follow_up}
  - strata: {intent: bridge_to_surgery, device_generation: beside_the_scope}
    patients: 60
    outcomes:
      perforation: {events: 3, total: 60, unknown: 4, of: attempted, window: 30_days}
      technical_success: {events: 60, total: 60, of: attempted, window: at_procedure}
"""


@cache
def review_of(folder: Path) -> tuple[Review, Guidelines | None]:
    """Return a review of the project and its guidelines, read once."""
    review = read_review(folder)
    return review, read_guidelines(folder, review.plan)


@cache
def sloe(old: str = "", new: str = "") -> UnitAudit:
    """Return the invented unit, with one piece changed, placed among the demo review."""
    review, _ = review_of(DEMO)
    assert old in UNIT
    with TemporaryDirectory() as place:
        path = Path(place) / "unit.yaml"
        path.write_text(UNIT.replace(old, new, 1), encoding="utf-8")
        return unit_audit(review, read_unit(path, review.plan).unit)


@dataclass(frozen=True)
class Outcome:
    """A weighed claim and its words."""

    weighed: Weighed
    words: ClaimWords

    @property
    def verdict(self) -> ClaimVerdict | None:
        return self.weighed.verdict

    @property
    def text(self) -> str:
        """All that is printed of it, on one line."""
        said = self.words
        return " ".join([said.verdict, *said.sentences, *said.pool, f"Say instead: {said.instead}"])


def checked(folder: Path, *claims: dict[str, object]) -> CheckedClaims:
    """Read claims written into a file, with what every claim needs filled in."""
    review, guidelines = review_of(folder)
    filled = [
        {"claim": f"c{number}", "says": "A sentence.", **claim}
        for number, claim in enumerate(claims)
    ]
    held = {"format": 1, "title": "A talk", "invented": True, "claims": filled}
    with TemporaryDirectory() as place:
        path = Path(place) / "claims.yaml"
        path.write_text(yaml.safe_dump(held, allow_unicode=True), encoding="utf-8")
        return read_claims(path, review.plan, guidelines)


def weighed(folder: Path, *, own: UnitAudit | None = None, **claim: object) -> Outcome:
    """Weigh one claim against a review of the project."""
    review, guidelines = review_of(folder)
    (read,) = checked(folder, claim).claims.claims
    found = weigh(review, read, guidelines, own)
    return Outcome(found, claim_words(found, review))
