"""A unit's file in the words of one plan."""

from evsyn.extraction.case_log.things import things
from evsyn.extraction.plan import Plan
from evsyn.extraction.schema.known_words import Schema, by_name, one_of
from evsyn.extraction.schema.of_study import outcomes, stratum_levels
from evsyn.extraction.schema.plan_words import denominators, windows


def with_unit_words(schema: Schema, plan: Plan) -> None:
    """Put a plan's words into the schema of a unit's file."""
    defined = schema["$defs"]
    count, group = defined["UnitCount"]["properties"], defined["Group"]["properties"]
    count["of"] = one_of(count["of"], denominators(plan, printed=False))
    count["window"] = one_of(count["window"], windows(plan))
    group["outcomes"] = by_name(group["outcomes"], outcomes(plan, "UnitCount"))
    group["strata"] = by_name(group["strata"], stratum_levels(plan))
    _course(schema["properties"], plan)
    if plan.flow:
        _log(defined, plan)


def _course(told: Schema, plan: Plan) -> None:
    steps = plan.course.steps
    stages = {stage: plan.denominators.get(stage, stage) for stage in plan.flow}
    devices = {name: end.label for name, end in plan.course.devices_end.items()}
    for field, words in (
        ("flow", stages | {name: step.label for name, step in steps.items()}),
        ("complications", {name: step.label for name, step in steps.items() if step.complication}),
        ("patients_end", plan.course.patients_end),
        ("devices_end", devices),
    ):
        one = told[field]["additionalProperties"]
        told[field] = by_name(
            told[field], {name: {**one, "description": label} for name, label in words.items()}
        )


def _log(defined: Schema, plan: Plan) -> None:
    stages = {stage: plan.denominators.get(stage, stage) for stage in plan.flow}
    log, outcome = defined["CaseLog"]["properties"], defined["LogOutcome"]["properties"]
    log["outcomes"] = by_name(log["outcomes"], outcomes(plan, "LogOutcome"))
    heading = log["columns"]["additionalProperties"]
    log["columns"] = by_name(
        log["columns"],
        {name: {**heading, "description": thing.label} for name, thing in things(plan).items()},
    )
    outcome["of"] = one_of(outcome["of"], stages)
    outcome["reached"] = one_of(outcome["reached"], stages, needed=False)
    outcome["window"] = one_of(outcome["window"], windows(plan))
