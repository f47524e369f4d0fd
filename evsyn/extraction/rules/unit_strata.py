"""Groups must sum to the flow, and each stage of a group must have one number."""

from collections.abc import Container, Iterator

from evsyn.extraction.flow.group_lines import group_words, grouped_stage, patients_stage
from evsyn.extraction.plan import Plan
from evsyn.extraction.rules.rule import UnitRule
from evsyn.extraction.rules.unit_retreated import over_devices
from evsyn.extraction.unit import Unit
from evsyn.terms import CountedBy, Finding, Severity, Source

NAME = "unit-strata"


def check(unit: Unit, plan: Plan) -> Iterator[Finding]:
    """Yield a fault where groups do not sum to the flow, or one stage of a group has two totals."""
    told = over_devices(unit, plan)
    summed = bool(told)
    for outcome in sorted({name for group in unit.groups for name in group.outcomes} - set(told)):
        for finding in _against_flow(outcome, unit, plan):
            summed = True
            yield finding
    if not summed and unit.counted_by is CountedBy.PATIENT:
        yield from _patients(unit, plan)
    yield from _two_totals(unit, plan, told)


def _against_flow(outcome: str, unit: Unit, plan: Plan) -> Iterator[Finding]:
    """Yield a fault where an outcome's totals pass a stage, or all groups' do not fill it."""
    counts = [group.outcomes[outcome] for group in unit.groups if outcome in group.outcomes]
    for stage in plan.flow:
        here = [count.total for count in counts if count.of == stage]
        if not here or stage not in unit.flow:
            continue
        total, wanted = sum(here), unit.flow[stage]
        if total > wanted or (len(here) == len(unit.groups) and total < wanted):
            message = f"{outcome}: the groups' {stage} sum to {total}, the flow says {wanted}"
            yield _fault(unit.source("flow"), message, "Find the missing or doubled cases.")


def _patients(unit: Unit, plan: Plan) -> Iterator[Finding]:
    """Yield a fault where the groups' patients are those of no stage of the flow."""
    last = grouped_stage(unit, plan)
    if last is None:
        return
    sure = patients_stage(unit, plan)
    stages = [last] if sure else plan.flow[: plan.flow.index(last) + 1]
    patients = sum(group.patients for group in unit.groups)
    if all(unit.flow.get(stage, patients) != patients for stage in stages):
        said = ", ".join(f"{stage} {unit.flow[stage]}" for stage in stages)
        message = f"the groups' patients sum to {patients}, the flow says {said}"
        yield _fault(unit.source("groups"), message, "Find the missing or doubled patients.")


def _two_totals(unit: Unit, plan: Plan, told: Container[str]) -> Iterator[Finding]:
    for group in unit.groups:
        first: dict[str, tuple[str, int]] = {}
        for outcome, count in group.outcomes.items():
            if count.of not in plan.flow or outcome in told:
                continue
            name, total = first.setdefault(count.of, (outcome, count.total))
            if total != count.total:
                message = f"{group_words(group, plan)}: {count.total} {count.of} for {outcome} "
                message += f"and {total} for {name}"
                cure = "A total holds all of them: list those not known under 'unknown'."
                yield _fault(count.source("total"), message, cure)


def _fault(source: Source, message: str, cure: str) -> Finding:
    return Finding(NAME, Severity.FAULT, source, message, cure)


RULE = UnitRule(
    NAME,
    Severity.FAULT,
    "The groups divide the cases among them: their totals over a stage sum to that stage, and one "
    "stage of one group has one total, whatever is counted over it.",
    check,
)
