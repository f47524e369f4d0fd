"""A claim uses the words of the plan, and the ids of the guidelines beside it."""

from collections.abc import Iterator

from evsyn.extraction.claim_rules.rule import ClaimRule
from evsyn.extraction.claims import EVIDENCE, About, Claim, Claims
from evsyn.extraction.faults import nearest
from evsyn.extraction.guidelines import GUIDELINES_FILE, Guidelines
from evsyn.extraction.plan import Characteristic, EraStratum, LabelledStratum, Plan
from evsyn.extraction.rules.names_known import unknown
from evsyn.terms import Finding, Severity

NAME = "claim-words"


def check(claims: Claims, plan: Plan, guidelines: Guidelines | None) -> Iterator[Finding]:
    """Yield a fault for each unknown word, with the nearest known one."""
    for claim in claims.claims:
        if claim.outcome is not None:
            yield from unknown(claim.outcome, plan.outcomes, "outcome", claim.source("outcome"))
        if claim.of is not None:
            place = claim.source("of")
            yield from unknown(claim.of, plan.denominators, "denominator basis", place)
        if claim.window is not None:
            yield from unknown(claim.window, plan.windows, "window", claim.source("window"))
        for name, level in claim.scope.items():
            yield from _level(claim, name, level, plan)
        yield from _crossed(claim, plan)
        yield from _than(claim, plan)
        if claim.statement is not None:
            yield from _statement(claim, claim.statement, guidelines)


def level_words(name: str, plan: Plan) -> list[str] | None:
    """Return the levels that a scope may name; ``None`` where any text may stand."""
    stratum = plan.strata.get(name)
    if isinstance(stratum, LabelledStratum):
        return list(stratum.levels)
    if isinstance(stratum, EraStratum):
        return [f"before_{stratum.cut_year}", f"from_{stratum.cut_year}"]
    declared = characteristic(name, plan)
    return None if declared is None or declared.kind != "choice" else list(declared.levels)


def characteristic(name: str, plan: Plan) -> Characteristic | None:
    """Return the characteristic of arms or of studies of that name."""
    return plan.characteristics.arm.get(name) or plan.characteristics.study.get(name)


def _level(claim: Claim, name: str, level: str, plan: Plan) -> Iterator[Finding]:
    place = claim.source(f"scope.{name}")
    declared = [*plan.strata, *plan.characteristics.arm, *plan.characteristics.study]
    if name not in declared:
        yield from unknown(name, declared, "stratum or characteristic", place)
        return
    known = level_words(name, plan)
    if known is not None:
        yield from unknown(level, known, f"level of '{name}'", place)


def _crossed(claim: Claim, plan: Plan) -> Iterator[Finding]:
    strata = [name for name in claim.scope if name in plan.strata]
    eras = [name for name in strata if isinstance(plan.strata[name], EraStratum)]
    if eras and len(strata) > 1:
        message = f"'{eras[0]}' is read from dates and cannot be crossed with another stratum"
        cure = "Name one of the two, and make two claims of it."
        yield Finding(NAME, Severity.FAULT, claim.source("scope"), message, cure)


def _than(claim: Claim, plan: Plan) -> Iterator[Finding]:
    if claim.than is None or (claim.than == EVIDENCE and claim.about is About.UNIT):
        return
    strata = [name for name in claim.scope if name in plan.strata]
    if len(strata) != 1:
        message = f"'than: {claim.than}' needs one stratum in 'scope', which has {len(strata)}"
        cure = "Write the level it is set against, as 'scope: {intent: palliation}'."
        yield Finding(NAME, Severity.FAULT, claim.source("than"), message, cure)
        return
    known = level_words(strata[0], plan) or []
    yield from unknown(claim.than, known, f"level of '{strata[0]}'", claim.source("than"))
    if claim.than == claim.scope[strata[0]]:
        message = f"'{claim.than}' stands on both sides"
        cure = "Name two levels."
        yield Finding(NAME, Severity.FAULT, claim.source("than"), message, cure)


def _statement(claim: Claim, name: str, guidelines: Guidelines | None) -> Iterator[Finding]:
    if guidelines is None:
        message = f"'{name}' cannot be looked up: the review's folder has no {GUIDELINES_FILE}"
        cure = "Write one, with each statement's source; the field reference lists its fields."
        yield Finding(NAME, Severity.FAULT, claim.source("statement"), message, cure)
        return
    known = [one.id for one in guidelines.statements]
    if name not in known:
        message = f"'{name}' is not a statement recorded in {GUIDELINES_FILE}"
        cure = nearest(name, known)
        yield Finding(NAME, Severity.FAULT, claim.source("statement"), message, cure)


RULE = ClaimRule(
    NAME,
    Severity.FAULT,
    "Outcomes, levels, windows and denominators must be words of the plan, and statements those "
    "recorded; a slip of the key would otherwise pass as 'nothing held'.",
    check,
)
