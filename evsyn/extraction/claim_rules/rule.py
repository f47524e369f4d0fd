"""What a check of claims, or of guidelines, is."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from evsyn.extraction.claims import Claims
from evsyn.extraction.guidelines import Guidelines
from evsyn.extraction.plan import Plan
from evsyn.terms import Finding, Severity


@dataclass(frozen=True, slots=True)
class ClaimRule:
    """A check of claims against the plan's words and the guidelines recorded beside it."""

    name: str
    severity: Severity
    why: str
    check: Callable[[Claims, Plan, Guidelines | None], Iterator[Finding]]


@dataclass(frozen=True, slots=True)
class GuidelineRule:
    """A check of recorded guidelines against the plan's words."""

    name: str
    severity: Severity
    why: str
    check: Callable[[Guidelines, Plan], Iterator[Finding]]
