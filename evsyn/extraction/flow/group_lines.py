"""What a unit file says of its groups."""

from collections.abc import Iterator

from evsyn.extraction.flow.attributes import Attributes
from evsyn.extraction.flow.line import Limit, Line, number_of
from evsyn.extraction.flow.sets import GROUP, Cases
from evsyn.extraction.flow.window import counted_in
from evsyn.extraction.plan import LabelledStratum, Plan
from evsyn.extraction.unit import Group, Unit, UnitCount
from evsyn.terms import NOT_STATED


def grouped_stage(unit: Unit, plan: Plan) -> str | None:
    """Return the stage whose patients the groups divide among them.

    It is the earliest stage over which any group counts. ``None`` where no group counts over a
    stage.
    """
    bases = {count.of for group in unit.groups for count in group.outcomes.values()}
    return next((stage for stage in plan.flow if stage in bases), None)


def patients_stage(unit: Unit, plan: Plan) -> str | None:
    """Return the stage whose patients ``patients`` of each group counts.

    It is the stage the groups divide, if every total over that stage is the group's patients;
    else ``patients`` may count cases of an earlier stage, and ``None`` is returned.
    """
    stage = grouped_stage(unit, plan)
    agree = all(
        count.total == group.patients
        for group in unit.groups
        for count in group.outcomes.values()
        if count.of == stage
    )
    return stage if agree else None


def group_words(group: Group, plan: Plan) -> str:
    """Return the labels of a group in words, as 'palliation, radiological'."""
    said = []
    for name, level in group.strata.items():
        stratum = plan.strata.get(name)
        levels = stratum.levels if isinstance(stratum, LabelledStratum) else {}
        said.append(levels.get(level, level.replace("_", " ")))
    return ", ".join(said) or "all cases"


def group_lines(unit: Unit, attributes: Attributes) -> Iterator[Line]:
    """Yield the lines of patients, totals and events of each group.

    Counts over a basis that is no stage of the flow say nothing of the flow and yield no line.
    """
    plan = attributes.plan
    whose = patients_stage(unit, plan)
    for number, group in enumerate(unit.groups):
        members = Cases.where(GROUP, {str(number)})
        label = f"({group_words(group, plan)})"
        if whose is not None:
            limit = number_of(members & attributes.reached(whose), group.patients, group.patients)
            yield Line(group.source("patients"), f"{group.patients} {whose} {label}", (limit,))
        for name, count in group.outcomes.items():
            if count.of in plan.flow:
                base = members & attributes.reached(count.of)
                limit = number_of(base, count.total, count.total)
                yield Line(count.source("total"), f"{count.total} {count.of} {label}", (limit,))
                yield from _events(name, count, base, label, attributes)


def _events(
    name: str, count: UnitCount, base: Cases, label: str, attributes: Attributes
) -> Iterator[Line]:
    counted = counted_in(name, count.window, attributes)
    if counted is None:
        return
    plan = attributes.plan
    few, many = count.events, count.events + count.unknown
    surely, at_most = base & counted.surely, base & counted.at_most
    limits: tuple[Limit, ...] = (number_of(surely, few, many),)
    if not counted.is_exact:
        limits = (number_of(at_most, few, None), number_of(surely, None, many))
    words = f"{plan.outcomes[name].label.lower()} in {few} of {count.total} {count.of} {label}"
    if count.window != NOT_STATED:
        words += f" {plan.windows[count.window].label}"
    if count.unknown:
        words += f", {count.unknown} unknown"
    yield Line(count.source("events"), words, limits)
