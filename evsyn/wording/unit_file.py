"""What a unit's file says of its cases, in words: period, cases left out, flow, ends."""

from collections.abc import Mapping

from evsyn.extraction.plan import Plan
from evsyn.extraction.unit import Complication, Unit
from evsyn.wording.numbers import counted


def period_sentence(unit: Unit) -> str:
    """Name the unit, its period, when it was frozen, and how long cases were followed."""
    period = f"{unit.period.from_} to {unit.period.to}"
    followed = unit.follow_up.rstrip(".")
    return f"{unit.label}, {period}, frozen {unit.frozen_on}; followed: {followed}."


def flow_sentences(unit: Unit, plan: Plan) -> tuple[str, ...]:
    """Say which cases are left out and why, how far cases came, and where they ended."""
    said = [f"Left out: {item.count}, {item.why.rstrip('.')}." for item in unit.left_out]
    words = {name: step.label for name, step in plan.course.steps.items()}
    if unit.flow:
        stages = ", ".join(f"{words.get(name, name)} {n:,}" for name, n in unit.flow.items())
        said.append(f"Flow of cases: {stages}.")
    if unit.complications:
        told = "; ".join(
            f"{words.get(name, name)} {_times(item)}" for name, item in unit.complications.items()
        )
        days = counted(plan.course.early_days, "day", "days")
        said.append(f"Patients with complications, early being within {days}: {told}.")
    if unit.patients_end:
        said.append(f"Patients ended: {_listed(unit.patients_end, plan.course.patients_end)}.")
    if unit.devices is not None or unit.devices_end:
        ends = {name: end.label for name, end in plan.course.devices_end.items()}
        number = "" if unit.devices is None else f" {unit.devices:,} placed"
        listed = f"; {_listed(unit.devices_end, ends)}" if unit.devices_end else ""
        said.append(f"Devices:{number}{listed}.".replace(":;", ":"))
    return tuple(said)


def _listed(ends: Mapping[str, int], words: Mapping[str, str]) -> str:
    return ", ".join(f"{words.get(name, name)} {number:,}" for name, number in ends.items())


def _times(item: Complication) -> str:
    told = {"early": item.early, "late": item.late, "at any time": item.ever}
    return ", ".join(f"{n:,} {when}" for when, n in told.items() if n is not None) or "not counted"
