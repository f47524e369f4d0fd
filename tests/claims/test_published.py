"""Claims on the published series, against counts taken from the files by another route.

The files are read here with a general YAML library and gathered by a few plain lines; nothing of
the package takes part in what is expected.
"""

from fractions import Fraction

import pytest
import yaml

from tests.claims.builders import BEYOND, BORNE_OUT, CONTRADICTED, PUBLISHED, weighed

PERFORATION = {"about": "evidence", "outcome": "perforation"}


def counts(outcome: str) -> dict[str, tuple[int, int]]:
    """Return one count a series: that of the whole study, else its separate arms added up.

    Counts over denominators or windows that the plan does not name are left out, and so are those
    with more than 1.1 procedures a patient.
    """
    wanted = yaml.safe_load((PUBLISHED / "review.yaml").read_text())["outcomes"][outcome]
    bases, windows = {*wanted["denominators"], "as_printed"}, {*wanted["windows"], "not_stated"}
    found = {}
    for path in sorted(PUBLISHED.glob("*.yaml")):
        held = yaml.safe_load(path.read_text())
        arms = [arm for arm in held.get("arms", ()) if outcome in arm.get("outcomes", {})]
        good = []
        for arm in arms:
            one = arm["outcomes"][outcome]
            procedures = max(one["total"], arm.get("procedures") or 0)
            by_patient = one.get("counted_by", "patient") == "patient"
            crowded = not by_patient and procedures > 1.1 * arm["patients"]
            in_window = one.get("window", "not_stated") in windows
            if one["of"] in bases and in_window and not crowded:
                good.append(arm)
        whole = [arm for arm in good if arm.get("covers") == "whole_study"]
        if not whole and len(good) < len(arms):
            continue
        taken = [arm["outcomes"][outcome] for arm in whole or good if not arm.get("part_of")]
        if taken:
            found[path.stem] = (sum(c["events"] for c in taken), sum(c["total"] for c in taken))
    return found


SERIES = counts("perforation")
BELOW_FIVE = sum(Fraction(x, n) < Fraction(1, 20) for x, n in SERIES.values())
EVENTS, TOTAL = (sum(one) for one in zip(*SERIES.values(), strict=True))


def test_the_counts_added_up_are_a_claim_that_is_borne_out():
    assert len(SERIES) >= 30
    found = weighed(PUBLISHED, **PERFORATION, relation="equals", value=f"{EVENTS} of {TOTAL}")
    assert found.verdict is BORNE_OUT
    found = weighed(PUBLISHED, **PERFORATION, relation="equals", value=f"{EVENTS} of {TOTAL + 1}")
    assert found.verdict is CONTRADICTED


@pytest.mark.parametrize(("more", "verdict"), [(0, BORNE_OUT), (1, CONTRADICTED)])
def test_at_least_as_many_series_below_five_per_cent_as_the_files_hold(more, verdict):
    wanted = f"{BELOW_FIVE + more} of {len(SERIES)}"
    claim = {"relation": "at_least", "series": wanted, "value": "below 5%"}
    found = weighed(PUBLISHED, **PERFORATION, **claim)
    assert found.verdict is verdict
    assert f"Of {len(SERIES)} series {BELOW_FIVE} report a rate below 5%" in found.text


def test_most_series_lie_below_five_per_cent_where_more_than_half_do():
    found = weighed(PUBLISHED, **PERFORATION, relation="most", value="below 5%")
    assert (found.verdict is BORNE_OUT) is (len(SERIES) < 2 * BELOW_FIVE)


def test_no_series_outlives_its_worst_report():
    worst = max(Fraction(x, n) for x, n in SERIES.values())
    above, under = (
        f"above {float(100 * worst) + 0.1:.1f}%",
        f"above {float(100 * worst) - 0.1:.1f}%",
    )
    assert weighed(PUBLISHED, **PERFORATION, relation="none", value=above).verdict is BORNE_OUT
    found = weighed(PUBLISHED, **PERFORATION, relation="none", value=under)
    assert found.verdict is CONTRADICTED
    assert "Exceptions: " in found.text


def test_a_pooled_value_of_another_paper_is_not_the_value_of_these():
    # van Halsema et al, Gastrointest Endosc 2014;79:970-982: 7.4% pooled, over other series.
    found = weighed(PUBLISHED, **PERFORATION, relation="equals", value="7.4%")
    assert found.verdict is CONTRADICTED
    assert "printed by no row" in found.text


def test_five_per_cent_cannot_be_told_from_these_series():
    found = weighed(PUBLISHED, **PERFORATION, relation="below", value="5%")
    assert found.verdict is BEYOND


def test_none_says_which_rates_stay_open():
    deaths = counts("procedure_death")
    total = sum(n for _, n in deaths.values())
    assert sum(x for x, _ in deaths.values()) == 0
    found = weighed(PUBLISHED, about="evidence", outcome="procedure_death", relation="none")
    assert found.verdict is BEYOND
    # One-sided 95% limit of none in n: 1 - 0.05^(1/n). Eypasch et al, BMJ 1995;311:619.
    assert f"rates up to {100 * (1 - 0.05 ** (1 / total)):.1f}% remain possible" in found.text
    assert "As a count it is borne out" in found.text


@pytest.mark.parametrize("word", ["because", "is safe", "reduces", "would have died"])
def test_words_are_refused_whatever_the_numbers_are(word):
    says = f"Most series lie below 5%, {word} it."
    found = weighed(PUBLISHED, **PERFORATION, relation="most", value="below 5%", says=says)
    assert found.verdict is BEYOND
    assert "Refused: " in found.text
    assert "The number alone would be borne out." in found.text


def test_a_level_without_series_is_said_to_hold_nothing():
    claim = {"scope": {"device_generation": "through_the_scope"}, "than": "beside_the_scope"}
    found = weighed(PUBLISHED, **PERFORATION, relation="lower_than", **claim)
    assert found.verdict.value == "nothing_held"
    assert "beside the scope: no series" in found.text


def test_a_window_that_no_series_gives_is_said_with_those_that_do_not_state_it():
    stated = [
        arm["outcomes"]["perforation"].get("window", "not_stated")
        for path in PUBLISHED.glob("*.yaml")
        for arm in yaml.safe_load(path.read_text()).get("arms", ())
        if "perforation" in arm.get("outcomes", {})
    ]
    assert "30_days" not in stated
    found = weighed(PUBLISHED, **PERFORATION, relation="below", value="9%", window="30_days")
    assert found.verdict.value == "nothing_held"
    assert f"0 of {len(SERIES)} series give it within 30 days (" in found.text


def test_the_page_of_the_review_counts_its_guidelines_as_they_are():
    held = yaml.safe_load((PUBLISHED / "guidelines.yaml").read_text())["statements"]
    memory = sum(one.get("from_memory", False) for one in held)
    page = " ".join((PUBLISHED / "README.md").read_text().split())
    assert f"Of {len(held)} statements {len(held) - memory} were read" in page
    assert f"{memory} are from memory" in page


def test_every_statement_read_has_an_address_and_every_replaced_one_a_successor():
    for one in yaml.safe_load((PUBLISHED / "guidelines.yaml").read_text())["statements"]:
        assert one["address"].startswith("http")
        assert (one["status"] == "superseded") is ("superseded_by" in one)
