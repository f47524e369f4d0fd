"""No case stands beside a case that is recorded."""

import pytest

from evsyn.terms import Severity
from tests.extraction.flow.made_up import count, found, group, plan, say, unit

NAME = "unit-zero"


def two(first, second, outcome="perforation", **more):
    groups = [group(19, **{outcome: first}), group(14, "bridge", **{outcome: second})]
    return {"groups": groups, **more}


NONE = count(0, 19), count(0, 14)
EVER = count(0, 19, window="follow_up"), count(0, 14, window="follow_up")


@pytest.mark.parametrize(
    ("fields", "key"),
    [
        (two(*NONE, complications={"perforation": {"early": 1}}),
         "complications.perforation.early"),
        (two(*EVER, complications={"perforation": {"late": 1}}), "complications.perforation.late"),
        (two(*EVER, complications={"perforation": {"ever": 1}}), "complications.perforation.ever"),
        (two(*EVER, flow={"perforation": 2}), "flow.perforation"),
        (two(*NONE, statements=[say(1, "perforation early", "alive")]), "statements.0.count"),
        (two(count(0, 19), count(1, 14), statements=[say(1, "palliation", "perforation early")]),
         "statements.0.count"),
        (two(count(0, 19), count(0, 14), "success", flow={"placed": 3}), "flow.placed"),
        (two(count(19, 19, window="follow_up"), count(14, 14, window="follow_up"),
             "stoma_avoidance", statements=[say(1, "placed", "stoma")]), "statements.0.count"),
    ],
)  # fmt: skip
def test_none_beside_one(fields, key):
    (finding,) = found(unit(**fields), NAME)
    assert finding.severity is Severity.FAULT
    assert finding.source.key_path == key
    assert f"line {finding.source.line}, " in finding.message


@pytest.mark.parametrize(
    "fields",
    [
        two(*NONE, complications={"perforation": {"early": 0, "late": 2, "ever": 2}}),
        two(count(0, 19), count(1, 14), complications={"perforation": {"early": 1}}),
        two(count(0, 19, unknown=1), count(0, 14), complications={"perforation": {"early": 1}}),
        two(count(0, 9, "placed"), count(0, 9, "placed"),
            complications={"perforation": {"early": 1}}),
        two(count(0, 9, "resected"), count(0, 9, "resected"),
            complications={"perforation": {"early": 1}}),
        two(count(0, 19, window="at_procedure"), count(0, 14, window="at_procedure"),
            complications={"perforation": {"early": 1}}),
        two(count(0, 19), count(0, 14), "fever", complications={"perforation": {"early": 1}}),
        two(count(0, 19), count(1, 14), statements=[say(1, "bridge", "perforation early")]),
        two(*NONE, statements=[say(1, "not perforation early")]),
        two(*NONE, statements=[say(1, "perforation early", how="at_most")]),
        two(*NONE, complications={"perforation": {"early": 1}}, counted_by="procedure"),
        two(*NONE, complications={"perforatoin": {"early": 1}}),
    ],
)  # fmt: skip
def test_none_that_may_stand(fields):
    assert found(unit(**fields), NAME) == []


def test_it_is_said_whether_none_or_all_are_counted():
    made = unit(**two(*NONE, complications={"perforation": {"early": 1}}))
    (finding,) = found(made, NAME)
    assert finding.message.startswith("perforation is counted in none, against: line ")
    made = unit(**two(count(19, 19), count(14, 14), "success",
                      statements=[say(1, "attempted", "not placed")]))  # fmt: skip
    (finding,) = found(made, NAME)
    assert finding.message.startswith("success is counted in all, against: line ")


def test_a_migration_is_of_someone_placed_by_the_plan():
    fields = two(count(0, 9, "placed", "follow_up"), count(0, 9, "placed", "follow_up"),
                 "migration", complications={"migration": {"ever": 1}})  # fmt: skip
    assert found(unit(**fields), NAME)
    wider = plan("migration: {label: had a migration, within: placed",
                 "migration: {label: had a migration, within: attempted")  # fmt: skip
    assert not found(unit(**fields), NAME, wider)
