"""Counts and levels in one line, in the words of the tiny plan."""

import pytest

from evsyn.extraction.starting.groups import Placed, count, level, of_group


@pytest.mark.parametrize(
    "written",
    [
        "perforation=4/52 attempted 30_days at Table 2, p. 5 printed 7.7%",
        "perforation=4/52, attempted, 30_days, at Table 2, p. 5, printed 7.7%",
        "perforation=4/52,attempted,30_days,at Table 2, p. 5,printed 7.7%",
    ],
)
def test_a_whole_count(written, tiny):
    assert count(written, tiny.read().plan, of_paper=True) == Placed(
        "",
        "perforation",
        {
            "events": 4,
            "total": 52,
            "of": "attempted",
            "window": "30_days",
            "at": "Table 2, p. 5",
            "printed": "7.7%",
        },
    )


@pytest.mark.parametrize(
    ("words", "more"),
    [
        ("4/52 placed", {}),
        ("4/52 placed at p. 3", {"at": "p. 3"}),
        ("4/52 placed printed 7.7%", {"printed": "7.7%"}),
        ("4/52 placed not_stated", {"window": "not_stated"}),
    ],
)
def test_parts_may_be_left_out(words, more, tiny):
    found = count(f"right.perforation={words}", tiny.read().plan, of_paper=True)
    assert found.group == "right"
    assert found.value == {"events": 4, "total": 52, "of": "placed", **more}


def test_a_units_count_may_hold_unknown_outcomes(tiny):
    plan = tiny.read().plan
    assert count("perforation=1/12 attempted unknown 11", plan, of_paper=False).value == {
        "events": 1, "total": 12, "of": "attempted", "unknown": 11,
    }  # fmt: skip
    with pytest.raises(ValueError, match="at most 11"):
        count("perforation=1/12 attempted unknown 12", plan, of_paper=False)


def test_what_names_a_group_goes_before_what_is_said_of_all(tiny):
    plan = tiny.read().plan
    found = [level(one, plan) for one in ("right.intent=bridge", "intent=palliation")]
    assert of_group(found, "right") == {"intent": "bridge"}
    assert of_group(found, "left") == {"intent": "palliation"}
