"""Flows whose sums all agree and which no patients can have, and odd ones that some can."""

import pytest

from evsyn.extraction.flow.clash import smallest_clash
from evsyn.extraction.flow.lines import unit_lines
from evsyn.extraction.flow.system import system_of
from evsyn.extraction.rules import unit_flow_possible
from evsyn.terms import Severity
from tests.extraction.flow.made_up import count, found, group, plan, say, unit

OPEN = "follow_up"


def clash_of(made, against=None):
    """Return the key paths of the smallest clash."""
    against = plan() if against is None else against
    lines = unit_lines(made, against)
    clash = smallest_clash(system_of(lines, made, against))
    return {lines[number].source.key_path for number in clash}


def events(number, outcome):
    return f"groups.{number}.outcomes.{outcome}.events"


TWO_OF_THREE = {
    "flow": {"stoma": 1, "bridged": 1},
    "complications": {"migration": {"ever": 1}},
    "statements": [
        say(0, "stoma", "bridged", "migration"),
        say(0, "not stoma", "not bridged"),
        say(0, "not bridged", "not migration"),
        say(0, "not stoma", "not migration"),
    ],
}

IMPOSSIBLE = {
    "more not relieved than the stages leave": (
        {"flow": {"placed": 39, "relieved": 37},
         "statements": [say(3, "placed", "not relieved", how="at_least")]},
        {"flow.placed", "flow.relieved", "statements.0.count"},
    ),
    "successes of the groups sum to another number placed": (
        {"flow": {"attempted": 33, "placed": 31},
         "groups": [group(19, success=count(18, 19)), group(14, "bridge", success=count(14, 14))]},
        {"flow.placed", events(0, "success"), events(1, "success")},
    ),
    "more patients without a stoma than the stomas leave": (
        {"flow": {"considered": 40, "attempted": 33, "stoma": 8},
         "groups": [group(19, stoma_avoidance=count(15, 19, window=OPEN)),
                    group(14, "bridge", stoma_avoidance=count(9, 14, window=OPEN))]},
        {"flow.attempted", "flow.stoma", events(0, "stoma_avoidance"),
         events(1, "stoma_avoidance")},
    ),
    "the groups' perforations are not those of the list": (
        {"flow": {"attempted": 33}, "complications": {"perforation": {"early": 2}},
         "groups": [group(19, perforation=count(2, 19)),
                    group(14, "bridge", perforation=count(1, 14))]},
        {"complications.perforation.early", events(0, "perforation"), events(1, "perforation")},
    ),
    "more early perforations among the dead than in all": (
        {"flow": {"attempted": 20}, "complications": {"perforation": {"early": 2, "late": 4}},
         "patients_end": {"alive": 16, "died_early": 3, "died_later": 1},
         "statements": [say(3, "died_early", "perforation early")]},
        {"complications.perforation.early", "statements.0.count"},
    ),
    "too few devices are left for those whose device did not migrate": (
        {"flow": {"placed": 39, "bridged": 0}, "devices": 40,
         "complications": {"migration": {"ever": 1}},
         "devices_end": {"in_place": 33, "removed": 0, "migrated": 5, "taken_out": 2}},
        {"flow.placed", "complications.migration.ever", "devices", "devices_end.migrated"},
    ),
    "a device migrated in nobody": (
        {"flow": {"placed": 9}, "devices": 9, "complications": {"migration": {"ever": 0}},
         "devices_end": {"in_place": 8, "migrated": 1}},
        {"complications.migration.ever", "devices_end.migrated"},
    ),
    "more reached the operation than were relieved": (
        {"flow": {"placed": 12, "relieved": 5, "bridged": 8},
         "statements": [say(1, "bridged", "not relieved", how="at_most")]},
        {"flow.relieved", "flow.bridged", "statements.0.count"},
    ),
    "every patient has two of three things, and there are three in all": (
        TWO_OF_THREE,
        {"flow.stoma", "flow.bridged", "complications.migration.ever",
         *(f"statements.{number}.count" for number in range(4))},
    ),
    "more stomas in a group than its count leaves": (
        {"flow": {"attempted": 33, "stoma": 11},
         "groups": [group(19, stoma_avoidance=count(15, 19, window=OPEN)),
                    group(14, "bridge", stoma_avoidance=count(9, 14, window=OPEN))],
         "statements": [say(5, "palliation", "stoma")]},
        {"groups.0.patients", events(0, "stoma_avoidance"), "statements.0.count"},
    ),
    "not even the unknown outcomes make up the list": (
        {"flow": {"attempted": 33}, "complications": {"perforation": {"early": 4}},
         "groups": [group(19, perforation=count(2, 19, unknown=1)),
                    group(14, "bridge", perforation=count(0, 14))]},
        {"complications.perforation.early", events(0, "perforation"), events(1, "perforation")},
    ),
    "more are not alive than the stage leaves": (
        {"flow": {"attempted": 41}, "patients_end": {"alive": 38, "died_later": 3},
         "statements": [say(5, "attempted", "not alive", how="at_least")]},
        {"flow.attempted", "patients_end.alive", "statements.0.count"},
    ),
    "two were not relieved, and only one death is left to them": (
        {"flow": {"attempted": 39, "placed": 39, "relieved": 37},
         "patients_end": {"alive": 30, "died_early": 1, "died_later": 7, "lost": 1},
         "statements": [say(0, "placed", "not relieved", end)
                        for end in ("alive", "died_later", "lost")]},
        {"flow.placed", "flow.relieved", "patients_end.died_early",
         *(f"statements.{number}.count" for number in range(3))},
    ),
    "more perforations at the procedure than early ones": (
        {"flow": {"attempted": 10}, "complications": {"perforation": {"early": 2}},
         "groups": [group(10, perforation=count(3, 10, window="at_procedure"))]},
        {"complications.perforation.early", events(0, "perforation")},
    ),
    "fewer perforations in 90 days than early ones": (
        {"flow": {"attempted": 10}, "complications": {"perforation": {"early": 4}},
         "groups": [group(10, perforation=count(3, 10, window="90_days"))]},
        {"complications.perforation.early", events(0, "perforation")},
    ),
    "early, late and ever ask for somebody with both": (
        {"complications": {"perforation": {"early": 3, "late": 1, "ever": 3}},
         "statements": [say(0, "perforation early", "perforation late")]},
        {"complications.perforation.early", "complications.perforation.late",
         "complications.perforation.ever", "statements.0.count"},
    ),
    "more relieved than placed in one group": (
        {"flow": {"attempted": 22, "placed": 20},
         "groups": [group(8, success=count(6, 8), relief=count(7, 8)),
                    group(14, "bridge", success=count(14, 14), relief=count(10, 14))]},
        {events(0, "success"), events(0, "relief")},
    ),
    "more reached the operation than a group holds": (
        {"flow": {"attempted": 33, "bridged": 15}, "groups": [group(19), group(14, "bridge")],
         "statements": [say(0, "palliation", "bridged")]},
        {"flow.bridged", "groups.1.patients", "statements.0.count"},
    ),
    "too few devices are left for those with neither step": (
        {"flow": {"placed": 6, "bridged": 3}, "devices": 6,
         "complications": {"migration": {"ever": 3}},
         "devices_end": {"in_place": 1, "removed": 3, "migrated": 2},
         "statements": [say(3, "bridged", "migration")]},
        {"flow.placed", "flow.bridged", "complications.migration.ever", "devices",
         "devices_end.removed", "devices_end.migrated", "statements.0.count"},
    ),
}  # fmt: skip


@pytest.mark.parametrize("fields, expected", IMPOSSIBLE.values(), ids=IMPOSSIBLE)
def test_the_smallest_set_of_lines_that_clash(fields, expected):
    assert clash_of(unit(**fields)) == expected


@pytest.mark.parametrize("fields", [one for one, _ in IMPOSSIBLE.values()], ids=IMPOSSIBLE)
def test_the_sums_of_an_impossible_flow_all_agree(fields):
    (finding,) = found(unit(**fields))
    assert (finding.rule, finding.severity) == (unit_flow_possible.NAME, Severity.FAULT)
    assert finding.source.line > 0


POSSIBLE = {
    "more devices than patients, as some were stented again": {
        "flow": {"placed": 39}, "devices": 45, "complications": {"migration": {"ever": 5}},
        "devices_end": {"in_place": 38, "migrated": 6, "taken_out": 1}},
    "perforation both early and late": {
        "complications": {"perforation": {"early": 3, "late": 2, "ever": 3}}},
    "a stoma without a placement": {
        "flow": {"considered": 5, "attempted": 5, "placed": 0, "stoma": 5}, "devices": 0},
    "a patient not relieved who still reached the operation": {
        "flow": {"placed": 14, "relieved": 10, "bridged": 14},
        "statements": [say(4, "bridged", "not relieved")]},
    "everybody dead": {
        "flow": {"attempted": 12, "placed": 12}, "patients_end": {"died_early": 12},
        "groups": [group(12, success=count(12, 12, window="at_procedure"))]},
    "nothing happened to anybody": {
        "flow": {"considered": 0, "attempted": 0, "placed": 0, "bridged": 0, "stoma": 0},
        "complications": {"perforation": {"early": 0, "late": 0, "ever": 0}},
        "patients_end": {"alive": 0}, "devices": 0, "devices_end": {"in_place": 0}},
    "an unknown outcome that makes up the list": {
        "flow": {"attempted": 33}, "complications": {"perforation": {"early": 3}},
        "groups": [group(19, perforation=count(2, 19, unknown=1)),
                   group(14, "bridge", perforation=count(0, 14))]},
    "patients of a level inside a mixed group": {
        "flow": {"attempted": 33}, "groups": [group(19), group(14, "mixed")],
        "statements": [say(25, "palliation"), say(8, "bridge")]},
    "a window shorter than early": {
        "flow": {"attempted": 19}, "complications": {"perforation": {"early": 5}},
        "groups": [group(19, perforation=count(1, 19, window="at_procedure"))]},
    "late perforations before an operation that came late": {
        "flow": {"attempted": 19}, "complications": {"perforation": {"early": 0, "late": 2}},
        "groups": [group(19, perforation=count(2, 19, window="before_surgery"))]},
    "one patient in whom every device migrated": {
        "flow": {"placed": 1}, "devices": 3, "complications": {"migration": {"ever": 1}},
        "devices_end": {"migrated": 3}},
    "one patient with a device of each end": {
        "flow": {"placed": 1, "bridged": 1}, "devices": 4,
        "complications": {"migration": {"late": 1}},
        "devices_end": {"in_place": 1, "removed": 1, "migrated": 1, "taken_out": 1}},
    "shares over a basis outside the flow": {
        "flow": {"attempted": 19}, "complications": {"perforation": {"early": 1}},
        "groups": [group(19, perforation=count(3, 9, of="resected"))]},
    "perforations in those in whom it failed": {
        "flow": {"attempted": 19, "placed": 17}, "complications": {"perforation": {"early": 2}},
        "groups": [group(19, perforation=count(0, 17, of="placed"))]},
    "stomas in those not attempted": {
        "flow": {"considered": 25, "attempted": 19, "stoma": 10},
        "groups": [group(19, stoma_avoidance=count(15, 19, window=OPEN))]},
    "a stoma that was closed": {
        "flow": {"stoma": 4, "reversed": 4}, "statements": [say(4, "stoma", "reversed")]},
    "a level without groups": {
        "flow": {"placed": 9}, "statements": [say(4, "palliation", "placed", "not relieved")]},
    "more than said at least, fewer than said at most": {
        "flow": {"placed": 9, "relieved": 5},
        "statements": [say(1, "placed", "not relieved", how="at_least"),
                       say(8, "placed", "not relieved", how="at_most")]},
    "groups of all considered, counted over the attempted": {
        "flow": {"considered": 25, "attempted": 19},
        "groups": [group(15, fever=count(0, 12)), group(10, "bridge", fever=count(1, 7))]},
    "no line of the flow at all": {"groups": [group(19), group(4, "bridge")]},
}  # fmt: skip


@pytest.mark.parametrize("fields", POSSIBLE.values(), ids=POSSIBLE)
def test_what_is_odd_and_possible_raises_nothing(fields):
    assert found(unit(**fields)) == []
    assert clash_of(unit(**fields)) == set()


def test_a_flow_that_only_parts_of_patients_could_have_is_impossible():
    # Three things in all and two in each patient: one patient and a half. Without whole numbers
    # the rows have that solution, by the linear optimiser of scipy.
    from scipy.optimize import linprog

    made = unit(**TWO_OF_THREE)
    system = system_of(unit_lines(made, plan()), made, plan())
    matrix, low, high = system.matrix.toarray().astype(float), system.low, system.high
    result = linprog(
        [0.0] * matrix.shape[1],
        A_ub=[*matrix[high < float("inf")], *-matrix[low > -float("inf")]],
        b_ub=[*high[high < float("inf")], *-low[low > -float("inf")]],
    )
    assert result.status == 0
    assert smallest_clash(system)
