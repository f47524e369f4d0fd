"""Comparisons in words: which row is read, why, and what it means per 1,000."""

import pytest

from evsyn.cells.cell import Cell
from evsyn.cells.comparison import ComparisonCell, ComparisonTable
from evsyn.effects.absolute import absolute_effect
from evsyn.pooling.compared import ComparisonAnswer, Contrasted, answer_comparison
from evsyn.wording.comparison import (
    absolute_sentence,
    choice_sentence,
    comparison_sentence,
    contrast_of,
    ratio,
)


def side(study: str, events: int, total: int) -> Cell:
    return Cell(study, study, 2000, events, total, "allocated", "30_days", frozenset(), ())


def answer(*rows: tuple[int, int, int, int], contrast: str = "risk_ratio") -> ComparisonAnswer:
    cells = tuple(
        ComparisonCell(side(f"s{i}", x1, n1), side(f"s{i}", x2, n2))
        for i, (x1, n1, x2, n2) in enumerate(rows)
    )
    return answer_comparison(
        ComparisonTable("new_against_old", "leak", cells),
        contrast=contrast,
        better="fewer",
        between="dersimonian_laird",
        level=0.95,
        assumed_risks=[0.3],
    )


def said(found: ComparisonAnswer, refused: str = "") -> str:
    return comparison_sentence(found, event="leak", label="New against old", refused=refused)


ORDINARY = ((14, 53, 31, 49), (10, 29, 20, 30), (9, 33, 12, 30), (4, 34, 9, 34))
RARE = ((1, 400, 3, 410), (0, 300, 2, 310), (2, 500, 4, 480), (1, 350, 1, 340))


def test_ordinary_risks_read_restricted_ml_on_the_plans_contrast() -> None:
    found = answer(*ORDINARY)
    assert found.reading is Contrasted.RESTRICTED_ML
    assert "Leak, new against old: risk ratio" in said(found)
    assert "DerSimonian-Laird, which most papers use, gives risk ratio" in said(found)
    assert "lie between 5% and 95%" in choice_sentence(found)
    assert Contrasted.PETO not in found.rows


def test_rare_risks_read_the_mantel_haenszel_odds_ratio() -> None:
    found = answer(*RARE)
    assert found.reading is Contrasted.MANTEL_HAENSZEL
    assert contrast_of(Contrasted.MANTEL_HAENSZEL, found) == "odds_ratio"
    assert "by Mantel-Haenszel, no halves" in said(found)
    assert "below 5% or above 95%" in choice_sentence(found)


def test_peto_stands_only_where_its_conditions_hold() -> None:
    mild = ((3, 400, 4, 410), (2, 300, 2, 310), (3, 500, 4, 480), (2, 350, 3, 340))
    found = answer(*mild)
    assert Contrasted.PETO in found.rows
    assert "Peto's method is left out" not in choice_sentence(found)
    large = ((0, 400, 4, 410), (1, 300, 3, 310), (0, 500, 4, 480), (1, 350, 3, 340))
    assert Contrasted.PETO not in answer(*large).rows
    assert "does not lie between 0.5 and 2" in choice_sentence(answer(*large))


def test_one_arm_without_any_event_has_no_ratio_and_no_row() -> None:
    found = answer((0, 15, 4, 13), (0, 30, 1, 30), (0, 24, 2, 24))
    assert found.rows == {}
    assert "there is no ratio" in said(found)
    assert "take the counts only" in said(found)
    assert choice_sentence(found) == ""


def test_studies_without_events_do_not_make_up_the_number() -> None:
    found = answer((4, 110, 6, 107), (2, 26, 4, 26), (0, 11, 0, 11))
    assert found.rows == {}
    assert "fewer than three studies inform the comparison" in said(found)
    assert str(found.effects[2].status) == "not_estimable"


def test_a_refused_outcome_gives_no_row() -> None:
    sentence = said(answer(*ORDINARY), "The definitions differ.")
    assert "not pooled. The definitions differ." in sentence


def test_risk_differences_are_in_points_and_have_no_absolute_effect() -> None:
    found = answer(*ORDINARY, contrast="risk_difference")
    assert "points (" in said(found)
    assert found.absolute == ()


@pytest.mark.parametrize(
    ("number", "written"), [(0.5649, "0.56"), (1.0, "1.00"), (0.0123, "0.0123"), (12.345, "12.35")]
)
def test_ratios_keep_what_can_be_read(number: float, written: str) -> None:
    assert ratio(number) == written


def test_absolute_effect_in_words() -> None:
    """Risk ratio 0.92 at 30%: 24 fewer per 1,000, number needed 42.

    Cochrane Handbook for Systematic Reviews of Interventions 5.1.0, section 12.5.4.2.
    """
    effect = absolute_effect(0.92, 0.85, 0.99, baseline=0.3, contrast="risk_ratio")
    text = absolute_sentence(effect, first="the new", second="the old")
    assert text.startswith("Where 30.0% have it under the old (assumed): 24 fewer per 1,000 under")
    assert "number needed to treat 42 to benefit" in text


def test_limits_on_both_sides_of_no_effect_run_through_infinity() -> None:
    effect = absolute_effect(0.92, 0.70, 1.20, baseline=0.3, contrast="risk_ratio")
    text = absolute_sentence(effect, first="the new", second="the old")
    assert "through infinity to 17 to harm" in text
