"""Early, late and ever must fit one another."""

from collections.abc import Iterator

from evsyn.extraction.plan import Plan
from evsyn.extraction.rules.rule import UnitRule
from evsyn.extraction.unit import Unit
from evsyn.terms import Finding, Severity

NAME = "unit-timing"


def check(unit: Unit, _: Plan) -> Iterator[Finding]:
    """Yield a fault where patients at any time are fewer than early or late ones, or too many."""
    for name, counted in unit.complications.items():
        parts = {"early": counted.early, "late": counted.late}
        known = {timing: number for timing, number in parts.items() if number is not None}
        ever = counted.ever
        if ever is None or not known:
            continue
        largest = max(known, key=lambda timing: known[timing])
        message = ""
        if known[largest] > ever:
            message = f"{name}: {known[largest]} {largest} and {ever} ever"
            cure = "Whoever had it early or late had it: correct one of the two."
        elif len(known) == len(parts) and sum(known.values()) < ever:
            message = f"{name}: {known['early']} early, {known['late']} late and {ever} ever"
            cure = "Whoever had it had it early, late or both: find the missing patients."
        if message:
            yield Finding(NAME, Severity.FAULT, counted.source("ever"), message, cure)


RULE = UnitRule(
    NAME,
    Severity.FAULT,
    "A patient with a complication had it early, late or both times; so those at any time are at "
    "least as many as either, and at most their sum.",
    check,
)
