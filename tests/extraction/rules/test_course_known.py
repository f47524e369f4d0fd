"""The plan's course of a case and its audit use the plan's own words."""

import pytest

from evsyn.terms import Severity

COURSE = """\
course:
  steps:
    stoma: {label: had a stoma made, within: attempted}
    leak: {label: leaked, within: placed, complication: true}
  patients_end: {alive: alive at last contact, dead: died}
  patients_end_of: attempted
  devices_end: {in_place: {label: in place}, gone: {label: gone, of: leak}}
  devices_of: placed
audit:
  primary: {outcome: perforation, stratum: intent, level: palliation}
  targets: {perforation: {rate: 0.06, according_to: a made-up group, decided_on: 2026-01-02}}
"""


def found(tiny, old="", new=""):
    tiny.plan("strata:\n", COURSE.replace(old, new, 1) + "strata:\n")
    return [f for f in tiny.read().findings if f.rule in ("course-known", "names-known")]


def test_a_sound_course_is_passed(tiny):
    assert found(tiny) == []


@pytest.mark.parametrize(
    ("old", "new", "told"),
    [
        ("within: placed", "within: plaiced", "'plaiced' is not a stage or step of the plan"),
        ("patients_end_of: attempted", "patients_end_of: tried", "'tried' is not a stage"),
        ("devices_of: placed", "devices_of: stoma", "'stoma' is not a stage"),
        ("of: leak", "of: leek", "'leek' is not a step"),
        ("dead: died", "stoma: with a stoma", "'stoma' names two things"),
        ("outcome: perforation, s", "outcome: perforations, s", "'perforations' is not an outcome"),
        ("stratum: intent, level: palliation", "stratum: intent", "without the other"),
        ("stratum: intent", "stratum: era", "'era' is not a labelled stratum"),
        ("level: palliation", "level: paliation", "'paliation' is not a level of 'intent'"),
        ("targets: {perforation", "targets: {leak", "'leak' is not an outcome"),
        ("audit:\n", "audit:\n  alert: 0.999\n", "alarm level 0.998 is not above"),
    ],
)
def test_each_slip_is_named(tiny, old, new, told):
    assert any(told in f.message for f in found(tiny, old, new))


def test_an_outcome_is_counted_as_something_known(tiny):
    tiny.plan("    better: more\n", "    better: more\n    counted_as: not arrived\n")
    (one,) = [f for f in tiny.read().findings if "arrived" in f.message]
    assert one.severity is Severity.FAULT


STEPS = """\
course:
  steps:
    stoma: {label: had a stoma made, within: %s}
    leak: {label: leaked, within: %s}
    fistula: {label: had a fistula, within: %s}
    redone: {label: was redone, within: fistula}
"""


@pytest.mark.parametrize(
    ("within", "told"),
    [
        (("leak", "stoma", "placed"), ["a circle (stoma within leak within stoma)"]),
        (
            ("leak", "fistula", "stoma"),
            ["a circle (stoma within leak within fistula within stoma)"],
        ),
        (("stoma", "placed", "leak"), ["'stoma' lies within itself"]),
        (("stoma", "placed", "fistula"), ["'stoma' lies", "'fistula' lies"]),
        (("placed", "stoma", "leak"), []),
    ],
)
def test_steps_that_lie_within_each_other_in_a_circle_are_one_fault(tiny, within, told):
    tiny.plan("strata:\n", f"{STEPS % within}strata:\n")
    found = [f for f in tiny.read().findings if f.rule == "course-known"]
    assert len(found) == len(told)
    for fault, words in zip(found, told, strict=True):
        assert words in fault.message
        assert fault.severity is Severity.FAULT
        assert fault.source.key_path.endswith("within")
