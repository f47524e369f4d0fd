"""A plan with a course of a case, and units written against it; every number is invented."""

import yaml

from evsyn.extraction.plan import Plan
from evsyn.extraction.rules import UNIT_RULES
from evsyn.extraction.unit import Unit
from evsyn.extraction.yaml_text import parse_bytes

PLAN = """\
format: 1
review: made
title: Made for a test
question: How often?
invented: true
fixed_on: 2026-01-02
search: none
denominators:
  considered: patients considered
  attempted: patients attempted
  placed: patients placed
  resected: patients resected
windows:
  at_procedure: {label: during the procedure, days: 0}
  30_days: {label: within 30 days, days: 30}
  90_days: {label: within 90 days, days: 90}
  before_surgery: {label: before the operation, ends: the operation}
  follow_up: {label: up to the last follow-up}
flow: [considered, attempted, placed, relieved]
course:
  early_days: 30
  steps:
    bridged: {label: reached the planned operation, within: placed}
    stoma: {label: had a stoma made, within: considered}
    reversed: {label: had the stoma closed, within: stoma}
    perforation: {label: had a perforation, within: attempted, complication: true}
    migration: {label: had a migration, within: placed, complication: true}
    reobstruction: {label: had a reobstruction, within: relieved, complication: true}
  patients_end:
    alive: alive at last contact
    died_early: died within 30 days
    died_later: died after 30 days
    lost: lost to follow-up
  patients_end_of: attempted
  devices_end:
    in_place: {label: in place at last contact or death}
    removed: {label: removed at the operation, of: bridged}
    migrated: {label: migrated, of: migration}
    taken_out: {label: taken out or replaced}
  devices_of: placed
outcomes:
  perforation: {label: Perforation, event: perforation, events: perforations, better: fewer,
    denominators: [attempted, placed, resected]}
  migration: {label: Migration, event: migration, events: migrations, better: fewer,
    denominators: [placed]}
  success: {label: Technical success, event: success, events: successes, better: more,
    denominators: [attempted], counted_as: placed}
  relief: {label: Relief, event: relief, events: reliefs, better: more,
    denominators: [attempted], counted_as: relieved}
  stoma_avoidance: {label: Stoma avoidance, event: stoma avoided, events: stomas avoided,
    better: more, denominators: [attempted], counted_as: not stoma}
  fever: {label: Fever, event: fever, events: fevers, better: fewer, denominators: [attempted]}
strata:
  intent:
    label: Intent
    asks: what it was for
    levels: {palliation: palliation, bridge: bridge to surgery}
  delivery:
    label: Delivery
    asks: how it was delivered
    levels: {scope: through the scope, wire: over a wire}
"""


def plan(old="", new=""):
    """Return the plan, with one piece of it replaced."""
    assert not old or PLAN.count(old) == 1
    return Plan.model_validate(parse_bytes(PLAN.replace(old, new, 1).encode()).root)


def count(events, total, of="attempted", window="30_days", unknown=0):
    return {"events": events, "total": total, "of": of, "window": window, "unknown": unknown}


def group(patients, level="palliation", **outcomes):
    outcomes = outcomes or {"fever": count(0, patients)}
    return {"strata": {"intent": level}, "patients": patients, "outcomes": outcomes}


def say(number, *who, how="exactly"):
    return {"count": number, "who": list(who), "how": how}


def unit(**fields):
    """Return a unit read from YAML, so that each of its lines is known."""
    written = {
        "format": 1,
        "unit": "made",
        "label": "A made unit",
        "invented": True,
        "period": {"from": "2020-01", "to": "2023-12"},
        "frozen_on": "2024-03-01",
        "complete": True,
        "follow_up": "30 days",
        "counted_by": "patient",
        "expected_cases": {"count": 50, "according_to": "stock records"},
        **fields,
    }
    text = yaml.safe_dump(written, sort_keys=False)
    return Unit.model_validate(parse_bytes(text.encode()).root, context={"file": "unit.yaml"})


def found(made, name=None, against=None):
    """Return what the checks of a unit find, of one check or of all."""
    against = plan() if against is None else against
    rules = [rule for rule in UNIT_RULES if name in (None, rule.name)]
    assert rules
    return [finding for rule in rules for finding in rule.check(made, against)]


def messages(made, name=None):
    return [finding.message for finding in found(made, name)]
