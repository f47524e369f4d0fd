"""A claim gives what its kind needs, and nothing that its kind does not use."""

from collections.abc import Iterator

from evsyn.extraction.claim_rules.rule import ClaimRule
from evsyn.extraction.claims import About, Asserts, Claim, Claims, Relation
from evsyn.extraction.guidelines import Guidelines
from evsyn.extraction.plan import Plan
from evsyn.terms import Finding, Severity

NAME = "claim-fields"

_AGAINST = (Relation.LOWER_THAN, Relation.HIGHER_THAN)
_VALUED = (Relation.EQUALS, Relation.BELOW, Relation.ABOVE, Relation.BETWEEN)
_COUNTING = (Relation.MOST, Relation.AT_LEAST)
_OF_COUNTS = ("scope", "window", "of", "relation", "series", "than")
_OF_GUIDELINES = ("statement", "asserts", "edition")


def check(claims: Claims, plan: Plan, guidelines: Guidelines | None) -> Iterator[Finding]:
    """Yield a fault for each field that is missing or out of place, and for names used twice."""
    seen: dict[str, int] = {}
    for claim in claims.claims:
        line = claim.source().line
        if claim.claim in seen:
            message = f"'{claim.claim}' is also the claim on line {seen[claim.claim]}"
            yield _fault(claim, "claim", message, "Give each claim a name of its own.")
        seen.setdefault(claim.claim, line)
        if claim.about is About.GUIDELINE:
            yield from _of_guideline(claim)
        else:
            yield from _of_counts(claim)


def _of_counts(claim: Claim) -> Iterator[Finding]:
    relation = claim.relation
    needed = {"outcome", "relation"}
    if relation in _VALUED or relation in _COUNTING:
        needed.add("value")
    if relation in _AGAINST:
        needed.add("than")
    if relation is Relation.AT_LEAST:
        needed.add("series")
    unused = {*_OF_GUIDELINES, "value", "than", "series"} - needed
    if relation in (Relation.NONE, Relation.ALL) and claim.about is About.EVIDENCE:
        unused.discard("value")
    yield from _missing_or_unused(claim, needed, unused)
    if relation in _COUNTING and claim.about is About.UNIT:
        message = f"'{relation}' counts series, and a unit is not a series"
        yield _fault(claim, "relation", message, "Use below, above, none or all.")


def _of_guideline(claim: Claim) -> Iterator[Finding]:
    needed = {"outcome", "value"} if claim.asserts is Asserts.PASS_MARK else {"statement"}
    if claim.asserts in (Asserts.NUMBER, Asserts.STRENGTH):
        needed.add("value")
    unused = {*_OF_COUNTS, "value", "outcome"} - needed
    yield from _missing_or_unused(claim, needed, unused)


def _missing_or_unused(claim: Claim, needed: set[str], unused: set[str]) -> Iterator[Finding]:
    what = f"{claim.about}, {claim.relation or claim.asserts}"
    if claim.about is not About.GUIDELINE and claim.relation is None:
        what = str(claim.about)
    for field in sorted(needed):
        if getattr(claim, field) is None:
            wanted = type(claim).model_fields[field].description
            yield _fault(claim, "", f"'{field}' is missing ({what})", f"Give {wanted}.")
    for field in sorted(unused & claim.model_fields_set):
        yield _fault(claim, field, f"'{field}' has no use here ({what})", "Take it out.")


def _fault(claim: Claim, field: str, message: str, cure: str) -> Finding:
    return Finding(NAME, Severity.FAULT, claim.source(field), message, cure)


RULE = ClaimRule(
    NAME,
    Severity.FAULT,
    "Each kind of claim needs its own fields, and a field that is not used would be passed over "
    "unseen.",
    check,
)
