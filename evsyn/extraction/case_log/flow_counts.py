"""Cases counted at each stage and step, by complication, by end, and their devices.

What is not known of any one case is not counted at all: a number that left him out would say that
it did not happen.
"""

from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from typing import Any

from evsyn.extraction.case_log.case import Case
from evsyn.extraction.case_log.missing import Missing
from evsyn.extraction.case_log.things import DEVICE_END, DEVICES, EVER, PATIENT_END, UNKNOWN
from evsyn.extraction.case_log.understand import CaseTable
from evsyn.extraction.flow.sets import BOTH, EARLY, LATE, NO, YES
from evsyn.extraction.plan import Plan
from evsyn.extraction.unit import CaseLog, Complication
from evsyn.extraction.yaml_text import Block


@dataclass(slots=True)
class FlowCounts:
    """Fields of a unit that the log gives, and what it leaves out.

    Parameters
    ----------
    fields : dict
        Values of ``flow``, ``complications``, ``patients_end``, ``devices``, ``devices_end``.
    missing : list of Missing
        What is not known of every case, and so is left out.
    unlogged : list of str
        Stages, steps and complications of cases the log may not hold.
    """

    fields: dict[str, Any] = field(default_factory=dict)
    missing: list[Missing] = field(default_factory=list)
    unlogged: list[str] = field(default_factory=list)


def flow_counts(table: CaseTable, log: CaseLog, plan: Plan) -> FlowCounts:
    """Count the cases of a log along the flow.

    Parameters
    ----------
    table : CaseTable
        The cases.
    log : CaseLog
        What the unit file says of the log.
    plan : Plan
        The plan of the review.

    Notes
    -----
    A log in which no case ended at a stage may begin after it. That stage is counted only if an
    outcome is counted over it, and so is whatever happens within it.
    """
    made = FlowCounts()
    first = _first_stage(table.cases, log, plan)
    _stages_and_steps(made, table, first, plan)
    _complications(made, table, first, plan)
    _patients_end(made, table, first, plan)
    _devices(made, table, plan)
    return made


def _first_stage(cases: Iterable[Case], log: CaseLog, plan: Plan) -> int:
    """Return the place in the flow of the first stage of which the log holds all cases."""
    reached = {case.reached for case in cases}
    asked = {one.of for one in log.outcomes.values()}
    return min(plan.flow.index(stage) for stage in reached | asked)


def _begins(thing: str, plan: Plan) -> int:
    """Return the place in the flow of the stage within which something happens."""
    while thing in plan.course.steps:
        thing = plan.course.steps[thing].within
    return plan.flow.index(thing)


def _stages_and_steps(made: FlowCounts, table: CaseTable, first: int, plan: Plan) -> None:
    places = [plan.flow.index(case.reached) for case in table.cases]
    flow = {stage: sum(p >= n for p in places) for n, stage in enumerate(plan.flow) if n >= first}
    made.unlogged += plan.flow[:first]
    for name in table.cases[0].steps:
        said = Counter(case.steps[name] for case in table.cases)
        rows = _rows(case for case in table.cases if case.steps[name] == UNKNOWN)
        if _begins(name, plan) < first:
            made.unlogged.append(name)
        elif rows:
            made.missing.append(Missing(name, f"{name} unknown", rows, f"{name} in the flow"))
        else:
            flow[name] = said[YES]
    made.fields["flow"] = flow


def _complications(made: FlowCounts, table: CaseTable, first: int, plan: Plan) -> None:
    counted = {}
    for name in table.cases[0].complications:
        if _begins(name, plan) < first:
            made.unlogged.append(name)
            continue
        said = Counter(case.complications[name] for case in table.cases)
        block = Block(table.heading_row, f"complications.{name}")
        unknown, untimed = (
            _rows(case for case in table.cases if case.complications[name] == what)
            for what in (UNKNOWN, EVER)
        )
        if unknown:
            left = f"{name} among the complications"
            made.missing.append(Missing(name, f"{name} unknown", unknown, left))
            continue
        if untimed:
            message = f"{name}, early or late not told"
            left = f"{name} as early and as late"
            made.missing.append(Missing(name, message, untimed, left))
        else:
            block.update(early=said[EARLY] + said[BOTH], late=said[LATE] + said[BOTH])
        block["ever"] = said.total() - said[NO]
        counted[name] = Complication.model_validate(block, context={"file": table.file})
    made.fields["complications"] = counted


def _patients_end(made: FlowCounts, table: CaseTable, first: int, plan: Plan) -> None:
    stage = plan.course.patients_end_of
    if PATIENT_END not in table.columns.places:
        return
    if stage is not None and plan.flow.index(stage) < first:
        made.unlogged.append(PATIENT_END)
        return
    held = list(_of_stage(table, stage, plan))
    missing = _rows(case for case in held if case.patient_end is None)
    if missing:
        left = "the line 'Patients ended'"
        made.missing.append(Missing(PATIENT_END, "no patient end", missing, left))
    else:
        ends = [case.patient_end for case in held]
        made.fields["patients_end"] = _numbers(plan.course.patients_end, ends)


def _devices(made: FlowCounts, table: CaseTable, plan: Plan) -> None:
    holders = list(_of_stage(table, plan.course.devices_of, plan))
    told = {DEVICES, DEVICE_END} & set(table.columns.places)
    if not told:
        return
    numbers = [case.devices for case in holders if case.devices is not None]
    uncounted = _rows(case for case in holders if case.devices is None)
    if uncounted:
        left = "the number of devices in the line 'Devices'"
        made.missing.append(Missing(DEVICES, "no number of devices", uncounted, left))
    else:
        made.fields["devices"] = sum(numbers)
    if DEVICE_END in told:
        ends = [case.device_ends for case in holders if case.device_ends is not None]
        endless = _rows(case for case in holders if case.device_ends is None)
        if endless:
            left = "the ends in the line 'Devices'"
            made.missing.append(Missing(DEVICE_END, "no device end", endless, left))
        else:
            made.fields["devices_end"] = _numbers(
                plan.course.devices_end, [end for one in ends for end in one]
            )


def _of_stage(table: CaseTable, stage: str | None, plan: Plan) -> Iterator[Case]:
    least = 0 if stage is None else plan.flow.index(stage)
    return (case for case in table.cases if plan.flow.index(case.reached) >= least)


def _rows(cases: Iterable[Case]) -> tuple[int, ...]:
    return tuple(case.source.line for case in cases)


def _numbers(names: Iterable[str], ends: Iterable[str | None]) -> dict[str, int]:
    number = Counter(ends)
    return {name: number[name] for name in names}
