"""The words of the performance funnel."""

import pytest

from evsyn.audit.funnel import FixedTarget, against_target
from evsyn.audit.overdispersion import Overdispersion
from evsyn.audit.verdict import Limits, Verdict
from evsyn.terms import Better
from evsyn.wording.funnel import (
    NOT_OF_STUDIES,
    flag_sentence,
    flag_words,
    flagged_from,
    funnel_title,
    level_words,
    nothing_above,
    nothing_below,
    overdispersion_sentence,
    short_target_caption,
    target_caption,
    window_sentence,
    withheld_sentence,
)
from evsyn.wording.funnel_range import (
    beyond_sentence,
    beyond_words,
    range_caption,
    range_from,
    range_subtitle,
    short_range_caption,
)

TARGET = FixedTarget(0.06)


def spread(phi: float) -> Overdispersion:
    return Overdispersion(units=10, phi=phi, phi_drawn_in=1.81, trigger=1.894, tau=0.035)


def test_the_title_cannot_pass_for_a_plot_of_studies() -> None:
    assert funnel_title("Perforation", "").startswith("Performance funnel: perforation")
    for caption in (
        target_caption(TARGET, 1, None),
        short_target_caption(TARGET, 8, None),
        range_caption(),
        short_range_caption(),
    ):
        assert NOT_OF_STUDIES in caption


def test_flags_name_their_side_and_what_to_do() -> None:
    many = against_target(9, 41, TARGET)
    assert flag_words(many) == "alarm, above"
    assert flag_sentence(many, Better.FEWER, is_exact=True).endswith("look at the cases")
    assert flag_sentence(many, Better.MORE, is_exact=True).endswith("denominator first")
    assert "chance of" in flag_sentence(many, Better.FEWER, is_exact=True)
    assert "chance" not in flag_sentence(many, Better.FEWER, is_exact=False)
    none = against_target(3, 41, TARGET)
    assert flag_words(none) == ""
    assert flag_sentence(none, Better.FEWER, is_exact=True) == ""


def test_the_caption_prints_the_levels_and_how_lines_were_drawn() -> None:
    said = target_caption(FixedTarget(0.06, 0.9, 0.999), 1, None)
    assert "90% (alert) and 99.9% (alarm)" in said
    assert "stepped" in said
    assert "smooth" in target_caption(TARGET, 2, None)
    assert "never from a line" in said
    assert "prompt to look" in said


@pytest.mark.parametrize(("level", "words"), [(0.95, "95%"), (0.998, "99.8%"), (0.9995, "99.95%")])
def test_levels(level: float, words: str) -> None:
    assert level_words(level) == words


def test_units_that_differ_by_more_than_chance() -> None:
    assert overdispersion_sentence(None) == ""
    calm = overdispersion_sentence(spread(1.5))
    assert "no more around the target than chance allows" in calm
    said = overdispersion_sentence(spread(2.0))
    for words in ("phi 2.00", "1.89", "1.81", "3.5 percentage points", "dashed lines"):
        assert words in said
    assert "dashed lines" in short_target_caption(TARGET, 12, spread(2.0))
    assert "dashed" not in short_target_caption(TARGET, 12, spread(1.5))


def test_where_no_result_can_lie_beyond() -> None:
    assert nothing_below(48, 90).startswith("Fewer than 48 cases: no result can fall below")
    assert "Fewer than 35 cases: no result can lie above the alert line" in nothing_above(35, 66)


def test_counts_at_which_one_unit_is_flagged() -> None:
    said = flagged_from(41, (-1, -1), (7, 9), better=Better.FEWER)
    assert said == "With 41 cases, above: alert from 7, alarm from 9; below: none possible."
    said = flagged_from(41, (30, 27), (42, 42), better=Better.MORE)
    assert said.startswith("With 41 cases, below: alert up to 30, alarm up to 27; above: none")


def test_the_range_of_one_unit_stands_in_words() -> None:
    reach = Limits(7, None, 0.016, 0.0, 0, 6)
    said = range_from(27, reach, better=Better.FEWER)
    assert said.startswith("With 27 cases, from 7: more than the range (1.6% of ordinary units)")
    assert range_from(27, reach, better=Better.MORE).startswith("With 27 cases, fewer: none")


def test_no_alarm_around_a_range() -> None:
    subtitle = range_subtitle(17, 1105, 0.065, ["windows differ"], typical="t", is_judged=True)
    assert subtitle.endswith("t 6.5%; windows differ.")
    few = range_subtitle(4, None, 0.065, [], typical="typical rate", is_judged=False)
    assert few.endswith("typical rate 6.5%; unreliable, no verdict.")
    for said in (subtitle, range_caption(), short_range_caption()):
        assert "alarm" not in said
        assert "alert" not in said


def test_verdicts_outside_the_range_have_words_beside_the_mark() -> None:
    assert beyond_words(Verdict.WITHIN) == beyond_words(Verdict.NONE) == ""
    assert beyond_words(Verdict.FEWER) == "fewer than the range"
    assert beyond_sentence(Verdict.MORE, Better.FEWER).endswith("look at the cases")
    assert beyond_sentence(Verdict.WITHIN, Better.FEWER) == "within the range"


def test_what_is_not_drawn() -> None:
    assert withheld_sentence([]) == window_sentence([], "within 30 days") == ""
    assert withheld_sentence(["A", "B"]) == (
        "Not drawn: A (own count withheld); B (own count withheld)."
    )
    assert "Not counted within 30 days" in window_sentence(["A"], "within 30 days")
