"""What is weighed is what will be said: the sentence and the value hold the same numbers."""

import re
from collections.abc import Iterator

from evsyn.extraction.claim_rules.rule import ClaimRule
from evsyn.extraction.claims import Claims
from evsyn.extraction.guidelines import Guidelines
from evsyn.extraction.plan import Plan
from evsyn.terms import Finding, Severity

NAME = "claim-said"

_PERCENTAGE = re.compile(r"([0-9]+(?:[.,·][0-9]+)?)\s*(?:%|per\s?cent)")
_DIGITS = re.compile(r"[0-9]+(?:[.,·][0-9]+)?")


def check(claims: Claims, plan: Plan, guidelines: Guidelines | None) -> Iterator[Finding]:
    """Yield a doubt for each claim that speaks of a percentage its value does not hold."""
    for claim in claims.claims:
        if claim.value is None or "%" not in claim.value:
            continue
        weighed = {_plain(number) for number in _DIGITS.findall(claim.value)}
        said = [_plain(number) for number in _PERCENTAGE.findall(claim.says)]
        if said and not weighed & set(said):
            yield Finding(
                NAME,
                Severity.DOUBT,
                claim.source("value"),
                f"the sentence says {said[0]}%, and {claim.value} is weighed",
                "Make them the same, decimals included.",
            )


def _plain(digits: str) -> str:
    return digits.replace(",", ".").replace("·", ".")


RULE = ClaimRule(
    NAME,
    Severity.DOUBT,
    "A sentence that is spoken with another number than the one weighed has not been weighed.",
    check,
)
