"""A study's file in the words of one plan."""

from collections.abc import Mapping

from evsyn.extraction.plan import Characteristic, Plan
from evsyn.extraction.schema.known_words import Schema, by_name, one_of
from evsyn.extraction.schema.plan_words import (
    denominators,
    levels,
    outcome_words,
    strata,
    stratum_words,
    windows,
)


def with_study_words(schema: Schema, plan: Plan) -> None:
    """Put a plan's words into the schema of a study's file."""
    defined = schema["$defs"]
    arm, count = defined["Arm"], defined["Count"]["properties"]
    count["of"] = one_of(count["of"], denominators(plan, printed=True))
    count["window"] = one_of(count["window"], windows(plan))
    told = arm["properties"]
    told["outcomes"] = by_name(told["outcomes"], outcomes(plan, "Count"))
    told["strata"] = by_name(told["strata"], stratum_levels(plan))
    told["characteristics"] = _facts(told["characteristics"], plan.characteristics.arm)
    if plan.treatments:
        told["treatment"] = one_of(told["treatment"], plan.treatments)
        arm["required"].append("treatment")
    whole = schema["properties"]
    whole["characteristics"] = _facts(whole["characteristics"], plan.characteristics.study)


def outcomes(plan: Plan, record: str) -> dict[str, Schema]:
    """Return the schema of each outcome's count; ``record`` is the name of a count's record."""
    return {
        name: {"$ref": f"#/$defs/{record}", "description": outcome_words(outcome, plan)}
        for name, outcome in plan.outcomes.items()
    }


def stratum_levels(plan: Plan) -> dict[str, Schema]:
    """Return the schema of the level in each stratum."""
    return {
        name: one_of({"description": stratum_words(stratum)}, levels(stratum))
        for name, stratum in strata(plan).items()
    }


def _facts(field: Schema, declared: Mapping[str, Characteristic]) -> Schema:
    text = field["additionalProperties"]
    return by_name(
        field,
        {
            name: one_of({"description": fact.label}, levels(fact))
            if fact.kind == "choice"
            else {**text, "description": fact.label}
            for name, fact in declared.items()
        },
    )
