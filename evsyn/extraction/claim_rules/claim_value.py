"""The number of a claim can be read, and fits what is said of it."""

from collections.abc import Iterator

from evsyn.extraction.claim_rules.rule import ClaimRule
from evsyn.extraction.claim_value import EXAMPLES, Amount, Form, amount, series_wanted
from evsyn.extraction.claims import About, Asserts, Claim, Claims, Relation
from evsyn.extraction.guidelines import Guidelines
from evsyn.extraction.plan import Plan
from evsyn.terms import Finding, Severity

NAME = "claim-value"

_ONE_NUMBER = (Form.PERCENT, Form.ONE_IN)


def check(claims: Claims, plan: Plan, guidelines: Guidelines | None) -> Iterator[Finding]:
    """Yield a fault for each value that is no number, or not of the kind its relation needs."""
    for claim in claims.claims:
        if claim.series is not None and series_wanted(claim.series) is None:
            message = f"'series' is '{claim.series}', and must be as '12' or '12 of 15'"
            yield _fault(claim, "series", message, "Give how many series, and of how many.")
        if claim.value is not None and _is_rate(claim):
            yield from _rate(claim, claim.value)


def _is_rate(claim: Claim) -> bool:
    return claim.about is not About.GUIDELINE or claim.asserts is Asserts.PASS_MARK


def _rate(claim: Claim, value: str) -> Iterator[Finding]:
    found = amount(value)
    if found is None:
        message = f"'value' is '{value}', and must be as {EXAMPLES}"
        yield _fault(
            claim,
            "value",
            message,
            "Write it with its % and its decimals; no share lies beyond 100%.",
        )
        return
    wanted = _wanted(claim, found)
    if wanted:
        message = f"'value' is '{value}', and must be {wanted} ({claim.relation})"
        yield _fault(claim, "value", message, "Correct it, or take another relation.")


def _wanted(claim: Claim, found: Amount) -> str:
    """Say what the relation needs instead; empty where the value fits."""
    match claim.relation:
        case Relation.EQUALS:
            is_fit = found.form is not Form.RANGE and found.side is None
            return "" if is_fit else "one number or a count"
        case Relation.BELOW | Relation.ABOVE:
            is_fit = found.form in _ONE_NUMBER and found.side is None
            return "" if is_fit else "one number without 'below' or 'above', as '5%'"
        case Relation.BETWEEN:
            return "" if found.form is Form.RANGE else "a range, as '2-8%'"
        case Relation.NONE | Relation.ALL | Relation.MOST | Relation.AT_LEAST:
            is_side = found.form in _ONE_NUMBER and found.side is not None
            is_fit = is_side or found.form is Form.RANGE
            return "" if is_fit else "what the series do, as 'below 5%' or '2-8%'"
        case _:
            return ""


def _fault(claim: Claim, field: str, message: str, cure: str) -> Finding:
    return Finding(NAME, Severity.FAULT, claim.source(field), message, cure)


RULE = ClaimRule(
    NAME,
    Severity.FAULT,
    "A claim is weighed to the decimals it is spoken with, so its number must be readable and of "
    "the kind its relation needs.",
    check,
)
