"""The lines of a unit file, in words and by their place."""

import pytest

from evsyn.extraction.flow.group_lines import grouped_stage, patients_stage
from evsyn.extraction.flow.lines import unit_lines
from tests.extraction.flow.made_up import count, group, plan, say, unit


def test_each_line_is_told_in_words_and_once():
    made = unit(
        flow={"attempted": 9, "stoma": 1},
        complications={"perforation": {"early": 1, "late": 0}},
        patients_end={"died_early": 2},
        devices=1,
        devices_end={"migrated": 2},
        statements=[say(1, "palliation", "not alive", how="at_least")],
        groups=[
            group(
                9,
                perforation=count(1, 9, unknown=2),
                success=count(8, 9, window="not_stated"),
                fever=count(3, 9),
            )
        ],
    )
    assert [line.words for line in unit_lines(made, plan())] == [
        "9 attempted",
        "1 had a stoma made",
        "1 had a perforation within 30 days",
        "0 had a perforation after day 30",
        "2 died within 30 days",
        "at least 1 to whom 'palliation, not alive' applies",
        "1 device placed",
        "2 devices migrated",
        "9 attempted (palliation)",
        "perforation in 1 of 9 attempted (palliation) within 30 days, 2 unknown",
        "technical success in 8 of 9 attempted (palliation)",
    ]
    assert {line.source.file for line in unit_lines(made, plan())} == {"unit.yaml"}


@pytest.mark.parametrize(
    ("groups", "divided", "patients"),
    [
        ([group(9, fever=count(0, 9)), group(4, "bridge", migration=count(0, 3, "placed"))],
         "attempted", "attempted"),
        ([group(9, fever=count(0, 8))], "attempted", None),
        ([group(9, migration=count(0, 9, "placed"))], "placed", "placed"),
        ([group(9, perforation=count(0, 9, "resected"))], None, None),
        ([], None, None),
    ],
)  # fmt: skip
def test_the_stage_that_groups_divide_and_the_one_their_patients_are_of(groups, divided, patients):
    made = unit(groups=groups)
    assert grouped_stage(made, plan()) == divided
    if divided is not None:
        assert patients_stage(made, plan()) == patients
