"""A unit with a log has the counts of its log, and no others."""

import pytest

from evsyn.terms import Source
from tests.extraction.case_log.made_up import MARK, table
from tests.extraction.flow.made_up import count, group


def test_three_cases_are_counted_by_hand(made):
    unit = made.read().unit
    # Nobody was only considered, so the log may begin with attempts: no stage before, no stoma.
    assert unit.flow == {"attempted": 3, "placed": 2, "relieved": 1, "bridged": 1}
    assert {name: (c.early, c.late, c.ever) for name, c in unit.complications.items()} == {
        "perforation": (1, 0, 1),
        "migration": (0, 1, 1),
    }
    assert unit.patients_end == {"alive": 1, "died_early": 0, "died_later": 1, "lost": 1}
    assert (unit.devices, unit.devices_end["migrated"], unit.devices_end["removed"]) == (3, 1, 1)
    assert [(one.strata, one.patients) for one in unit.groups] == [
        ({"intent": "palliation"}, 1),
        ({"intent": "bridge"}, 2),
    ]
    counted = {
        name: (one.events, one.total, one.unknown) for name, one in unit.groups[1].outcomes.items()
    }
    assert counted == {
        "perforation": (1, 2, 0),
        "success": (1, 2, 0),
        "stoma_avoidance": (1, 2, 0),
        "fever": (1, 1, 0),
    }


def test_groups_and_counts_stand_in_the_row_of_their_first_case(made):
    palliation, bridge = made.read().unit.groups
    assert (palliation.source().file, palliation.source().line) == ("log.csv", 3)
    assert bridge.source() == Source("log.csv", 4, "groups.1")
    assert bridge.outcomes["fever"].source() == Source("log.csv", 4, "groups.1.outcomes.fever")
    assert bridge.outcomes["fever"].source("total").line == 4


def test_what_the_log_gives_for_the_unit_stands_at_its_entry(made):
    unit = made.read().unit
    line = unit.source("case_log").line
    assert unit.source("flow.placed") == Source("unit.yaml", line, "flow.placed")


def test_the_cases_are_kept(made):
    first, _, last = made.read().cases
    assert (first.month, first.source, first.operator) == (
        "2020-03",
        Source("log.csv", 3),
        "surgeon",
    )
    assert first.device_ends == ("migrated", "in_place")
    assert first.facts == {"site": "rectum", "length": 4.5}
    assert (last.devices, last.device_ends, last.facts) == (0, (), {"site": "rectum"})
    assert "fever" not in last.outcomes


@pytest.mark.parametrize(
    ("field", "value"),
    [
        ("groups", [group(3, fever=count(1, 3))]),
        ("flow", {"attempted": 3}),
        ("complications", {"perforation": {"ever": 1}}),
        ("patients_end", {"alive": 3}),
        ("devices", 3),
        ("devices_end", {"migrated": 1}),
    ],
)
def test_what_stands_beside_a_log_is_a_fault(made, field, value):
    made.fields[field] = value
    ((place, path, message),) = made.faults()
    assert (path, message) == (field, f"'{field}' stands beside a case log, which gives it")
    assert place.startswith("unit.yaml, line ")


def test_neither_groups_nor_a_log_is_a_fault(made):
    made.fields["case_log"] = None
    assert made.faults() == [
        ("unit.yaml, line 1", "", "the unit file gives neither groups nor a case log")
    ]


@pytest.mark.parametrize(("number", "clashes"), [(1, False), (2, True)])
def test_statements_may_stay_and_are_held_to_the_cases(made, number, clashes):
    made.fields["statements"] = [{"count": number, "who": ["perforation early", "bridged"]}]
    assert bool(made.faults()) is clashes


def test_a_log_that_may_tell_who_somebody_is_gets_nothing_else_said(made):
    names = "month,reached,intent,Surname"
    rows = ["2020-03,nowhere,palliation,Alder", "1999-01,relieved,bridge,Bracken"]
    made.write(table(*rows, headings=names))
    assert {one.rule for one in made.found()} == {"identifier"}


def test_an_invented_unit_needs_a_log_that_says_so(made):
    made.write(table().removeprefix(MARK))
    assert made.faults() == [
        ("log.csv, line 1", "", "the unit is invented, and the log does not say so")
    ]


def test_a_real_unit_cannot_bring_an_invented_log(made):
    made.fields["invented"] = False
    assert made.faults() == [
        ("log.csv, line 1", "", "the log says that it is invented, and the unit file does not")
    ]


def test_considered_cases_are_rows_of_the_log(made):
    considered = "2022-05,considered,palliation,,yes,,,,,,,,,d,"
    made.write(table(*table().splitlines()[2:], considered))
    unit = made.read().unit
    assert (unit.flow["considered"], unit.flow["attempted"], unit.flow["stoma"]) == (4, 3, 2)
    assert [one.patients for one in unit.groups] == [1, 2]


def test_a_log_in_which_nobody_reached_a_counted_stage_is_a_fault(made):
    made.write(table("2022-05,considered,palliation,,yes,,,,,,,,,d,"))
    ((place, _, message),) = made.faults()
    assert (place, message[:20]) == ("log.csv, line 2", "no case reached a st")


def test_the_unit_s_own_words_may_stand_for_roles(made):
    made.with_cell(3, "operator", "Surg")
    assert {one.rule for one in made.found()} == {"identifier"}
    made.say(words={"Surg": "surgeon"})
    assert made.read().cases[0].operator == "surgeon"
