"""Shares that stand side by side should be shares of the same."""

from tests.extraction.flow.made_up import count, found, group, unit

NAME = "unit-denominators"


def three(*counts):
    groups = [group(20, perforation=counted) for counted in counts]
    for made, level in zip(groups, ("palliation", "bridge", "mixed"), strict=False):
        made["strata"] = {"intent": level}
    return unit(groups=groups)


def test_another_basis_is_a_doubt():
    made = three(count(1, 20), count(1, 18, "placed"), count(1, 20))
    (finding,) = found(made, NAME)
    assert finding.is_open
    assert finding.source.key_path == "groups.1.outcomes.perforation.of"
    assert finding.message == (
        "perforation (bridge to surgery): of is placed and not attempted as in other groups"
    )


def test_another_window_is_a_doubt():
    made = three(count(1, 20), count(1, 20), count(1, 20, window="not_stated"))
    (finding,) = found(made, NAME)
    assert finding.source.key_path == "groups.2.outcomes.perforation.window"
    assert "window is not_stated and not 30_days" in finding.message


def test_one_basis_and_one_window_are_none():
    assert found(three(count(1, 20), count(2, 20), count(0, 20)), NAME) == []
