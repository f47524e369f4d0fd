"""Claims and guidelines in the words of one plan."""

from evsyn.extraction.claim_rules.claim_words import level_words
from evsyn.extraction.claims import EVIDENCE
from evsyn.extraction.plan import EraStratum, Plan
from evsyn.extraction.schema.known_words import Schema, by_name, list_of, one_of
from evsyn.extraction.schema.plan_words import denominators, windows


def with_claim_words(schema: Schema, plan: Plan) -> None:
    """Put a plan's words into the schema of a talk's claims."""
    claim = schema["$defs"]["Claim"]["properties"]
    claim["outcome"] = one_of(claim["outcome"], _outcomes(plan), needed=False)
    claim["window"] = one_of(claim["window"], windows(plan, unstated=False), needed=False)
    claim["of"] = one_of(claim["of"], denominators(plan, printed=False), needed=False)
    text = claim["scope"]["additionalProperties"]
    facts = plan.characteristics.study | plan.characteristics.arm
    labelled = {**facts, **plan.strata}
    scope: dict[str, Schema] = {}
    others = {EVIDENCE: "of a unit: what is pooled"}
    for name, one in labelled.items():
        known = level_words(name, plan)
        words = {} if isinstance(one, EraStratum) else one.levels
        meanings = {level: words.get(level, level.replace("_", " ")) for level in known or ()}
        said = {"description": one.label}
        scope[name] = {**text, **said} if known is None else one_of(said, meanings)
        if name in plan.strata:
            others |= meanings
    claim["scope"] = by_name(claim["scope"], scope)
    claim["than"] = one_of(claim["than"], others, needed=False)


def with_guideline_words(schema: Schema, plan: Plan) -> None:
    """Put a plan's words into the schema of recorded guidelines."""
    told = schema["properties"]
    told["guidelines"] = one_of(told["guidelines"], {plan.review: plan.title})
    told["no_pass_mark"] = list_of(told["no_pass_mark"], _outcomes(plan))


def _outcomes(plan: Plan) -> dict[str, str]:
    return {name: outcome.label for name, outcome in plan.outcomes.items()}
