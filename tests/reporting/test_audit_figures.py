"""From units' own figures to strips and funnels, and what may not leak through them."""

from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest

from evsyn.audit.funnel import FixedTarget, Flag, against_target
from evsyn.audit.release import released
from evsyn.audit.standing import standings
from evsyn.audit.unit_audit import unit_answers
from evsyn.cells.cell import Question
from evsyn.extraction.load import CheckedUnit, read_review, read_unit
from evsyn.figures.formats import A4, SLIDE, web
from evsyn.figures.funnel import Spot, funnel_layout
from evsyn.figures.invented import Invented
from evsyn.figures.own_count import OwnCount
from evsyn.figures.strip import strip_layout
from evsyn.figures.svg import svg_text
from evsyn.reporting import audit_figures as strips
from evsyn.reporting.audit_figures import strip_of
from evsyn.reporting.range_funnel import range_funnel_of
from evsyn.reporting.target_funnel import target_funnel_of
from evsyn.terms import OVERALL
from evsyn.wording.verdict import VERDICT_WORDS

ROOT = Path(__file__).parents[2] / "studies"
DEMO = read_review(ROOT / "demo")
PUBLISHED = read_review(ROOT / "published")
UNIT = read_unit(ROOT / "demo" / "unit-hollowmere.yaml", DEMO.plan)
PALLIATION = Question("perforation", "intent", "palliation")
#: Never said of a unit: docs/decisions/0017.
NEVER = ("safe", "significant", "outlier", "acceptable", "meets the standard", "failing", "p value")


@pytest.fixture(autouse=True)
def pooled_once(monkeypatch):
    """Pools do not depend on a unit's counts, so each is made once."""

    def answers(review, unit):
        return _answers(review.plan.review, tuple(unit.own_studies), _outcomes(unit))

    monkeypatch.setattr(strips, "unit_answers", answers)


@cache
def _answers(review, own, outcomes):
    read = DEMO if review == DEMO.plan.review else PUBLISHED
    groups = [
        group.model_copy(
            update={"outcomes": {k: v for k, v in group.outcomes.items() if k in outcomes}}
        )
        for group in UNIT.unit.groups
    ]
    update = {"groups": groups, "own_studies": list(own)}
    return unit_answers(read, UNIT.unit.model_copy(update=update))


def _outcomes(unit):
    return tuple(sorted({name for group in unit.groups for name in group.outcomes}))


def with_perforations(*events: int, sizes=(40, 30), **fields: object) -> CheckedUnit:
    """Return an invented unit with these perforations in its palliative and bridge cases."""
    groups = []
    for intent, size, count in zip(("palliation", "bridge_to_surgery"), sizes, events, strict=True):
        group = UNIT.unit.groups[0].model_copy(deep=True)
        counted = group.outcomes["perforation"].model_copy(
            update={"events": count, "total": size, "of": "attempted", "window": "30_days"}
        )
        group.strata.update({"intent": intent, "device_generation": "through_the_scope"})
        changed = {"patients": size, "outcomes": {"perforation": counted}}
        groups.append(group.model_copy(update=changed))
    unit = UNIT.unit.model_copy(update={"groups": groups, "own_studies": [], **fields})
    return CheckedUnit(unit, ())


def outside(standing) -> OwnCount:
    return OwnCount.released(released(standing.events, standing.total))


def withheld(standing) -> OwnCount:
    return OwnCount.withheld(standing.total)


def test_every_count_has_a_strip_with_its_verdict() -> None:
    said = strip_of(DEMO, UNIT)
    placed = standings(UNIT.unit, unit_answers(DEMO, UNIT.unit), DEMO.plan)
    assert len(said.strips) == len(placed)
    outcomes = list(DEMO.plan.outcomes)
    placed = sorted(placed, key=lambda s: (outcomes.index(s.outcome), s.stratum != OVERALL))
    for standing, strip in zip(placed, said.strips, strict=True):
        assert strip.own_words == f"ours: {standing.events} of {standing.total}"
        if standing.stratum == OVERALL:
            continue
        if standing.comparison is None:
            assert strip.columns is None
            assert strip.sentence.startswith("No ")
            continue
        assert strip.columns is not None
        assert strip.columns.is_judged is standing.comparison.judged
        if standing.reason is None:
            assert strip.sentence.lower().startswith(VERDICT_WORDS[standing.verdict])
        else:
            assert "no verdict" in strip.sentence.lower()
        reach = standing.comparison.limits
        assert strip.columns.first <= reach.low
        assert strip.columns.last >= reach.high
        for number in (standing.events, reach.first_more, reach.last_fewer):
            assert number is None or strip.columns.first <= number <= strip.columns.last


def test_what_is_not_drawn_is_told_with_its_chance() -> None:
    for strip in strip_of(DEMO, UNIT, "perforation").strips:
        if strip.columns is not None and strip.columns.last < strip.own.total:
            assert f"not drawn: {strip.columns.last + 1}" in strip.size
            assert sum(strip.columns.ordinary) > 0.95


def test_the_whole_is_drawn_among_units_with_its_case_mix() -> None:
    strip = strip_of(DEMO, UNIT, "perforation").strips[0]
    assert strip.title == "All cases"
    assert strip.columns is not None
    assert "with their case mix" in strip.size


def test_one_stratum_alone_and_a_single_strip_has_its_count_in_the_title() -> None:
    said = strip_of(DEMO, UNIT, "perforation", stratum="intent")
    assert [strip.title for strip in said.strips] == ["Palliation", "Bridge to surgery"]
    both = strip_of(DEMO, UNIT, "perforation", stratum="intent", with_whole=True)
    assert [strip.title for strip in both.strips] == ["All cases", *(s.title for s in said.strips)]
    one = strip_of(DEMO, UNIT, "perforation", stratum=OVERALL)
    assert one.title.startswith("Perforation, all cases; ours: ")
    with pytest.raises(ValueError, match="no such count"):
        strip_of(DEMO, with_perforations(1, 1), "technical_success")


@pytest.mark.parametrize("tell", [outside, withheld])
def test_nothing_in_a_strip_depends_on_a_count_that_is_not_told(tell) -> None:
    seen = {}
    for events in (0, 1, 4, 7, 8, 9, 13, 20, 39, 40):
        said = strip_of(
            DEMO, with_perforations(events, 2), "perforation", stratum="intent", tell=tell
        )
        told = tell(type("S", (), {"events": events, "total": 40}))
        if told.is_exact:
            continue
        drawn = svg_text(strip_layout(said, A4))
        assert seen.setdefault(told, (said, drawn)) == (said, drawn)
        assert f"ours: {events} of 40" not in drawn
    assert seen


@pytest.mark.parametrize("tell", [outside, withheld])
def test_nothing_in_a_funnel_depends_on_a_count_that_is_not_told(tell) -> None:
    seen = {}
    for events in (1, 4, 7, 33, 36, 39):
        unit = with_perforations(events, 0, sizes=(40, 30))
        whole = target_funnel_of(DEMO, [unit], "perforation", tell=tell)
        level = range_funnel_of(DEMO, [unit], PALLIATION, tell=tell)
        told = tell(type("S", (), {"events": events, "total": 40}))
        is_one_of_several = len(told.possible) > 1
        assert any("one of several" in note for note in level.notes) is is_one_of_several
        drawn = svg_text(funnel_layout(level, A4))
        assert seen.setdefault(("level", told), (level, drawn)) == (level, drawn)
        told = tell(type("S", (), {"events": events, "total": 70}))
        drawn = svg_text(funnel_layout(whole, A4))
        assert seen.setdefault(("whole", told), (whole, drawn)) == (whole, drawn)
    assert len(seen) >= 2


def test_a_count_told_as_one_of_several_keeps_a_verdict_that_all_would_get() -> None:
    few = strip_of(DEMO, with_perforations(3, 2), "perforation", stratum="intent", tell=outside)
    many = strip_of(DEMO, with_perforations(36, 2), "perforation", stratum="intent", tell=outside)
    assert few.strips[0].own_words == "ours: between 1 and 7 of 40"
    assert few.strips[0].sentence.startswith("Within the range")
    assert many.strips[0].sentence.startswith("More than the range")
    split = with_perforations(9, 2)
    told = strip_of(DEMO, split, "perforation", stratum="intent", tell=outside).strips[0]
    assert "the verdict is told inside the unit only" in told.sentence


def test_a_count_of_other_cases_than_are_known_is_not_compared() -> None:
    def more_cases(standing):
        return OwnCount.one_of(range(1, 8), standing.total + 3)

    for strip in strip_of(DEMO, UNIT, "perforation", tell=more_cases).strips:
        assert strip.columns is None
        assert strip.sentence == "No comparison: not every outcome is known."


def test_a_count_the_caller_leaves_out_is_left_out() -> None:
    said = strip_of(DEMO, UNIT, tell=lambda s: outside(s) if s.stratum == OVERALL else None)
    assert {strip.title.partition(": ")[2] for strip in said.strips} == {"all cases"}
    assert "comparisons with a verdict" not in said.caption


def test_dates_and_marks_are_the_callers() -> None:
    inside = strip_of(DEMO, UNIT)
    assert "2022-04" in inside.subtitle
    assert "INSIDE THE UNIT" in inside.mark
    assert inside.short_mark == "Inside the unit only."
    told = strip_of(DEMO, UNIT, mark="For the board.", short_mark="Board.", is_dated=False)
    assert "2022" not in told.subtitle
    for fmt, mark in ((A4, "For the board."), (SLIDE, "Board.")):
        for page in strip_layout(told, fmt).pages:
            assert [text.words for g in page.of("audience") for text in g.texts] == [mark]


def test_every_figure_of_a_unit_bears_who_may_see_it_at_its_head() -> None:
    """Also where nothing is compared, and a sentence stands in place of the figure."""
    for content, lay in (
        (strip_of(DEMO, UNIT, "perforation"), strip_layout),
        (target_funnel_of(DEMO, [UNIT], "perforation"), funnel_layout),
        (range_funnel_of(DEMO, [UNIT], PALLIATION), funnel_layout),
        (range_funnel_of(DEMO, [UNIT], Question("perforation")), funnel_layout),
    ):
        for fmt in (A4, SLIDE, web(360)):
            layout = lay(content, fmt)
            assert layout.description.startswith("INVENTED DATA: no real patients or units. INSIDE")
            for page in layout.pages:
                said = " ".join(text.words for g in page.of("audience") for text in g.texts)
                assert said == (content.short_mark if fmt is SLIDE else content.mark)


def test_a_hidden_count_is_set_against_no_line_and_called_no_estimate() -> None:
    unit = with_perforations(2, 2)
    said = target_funnel_of(DEMO, [unit], "perforation", tell=outside)
    assert not said.curves
    assert said.centre == DEMO.plan.audit.targets["perforation"].rate
    assert said.notes == (
        "Hidden by rule: this bracket is the same for every unit with between 1 and 7 of 70. "
        "It is no estimate.",
    )
    for fmt in (A4, SLIDE):
        drawn = svg_text(funnel_layout(said, fmt))
        assert "target 6.0%" in drawn
        for word in ("alert from", "alarm from", "alert line,", "alarm line,", "Lines at"):
            assert word not in drawn
    told = target_funnel_of(DEMO, [unit], "perforation")
    assert told.curves
    assert not any("Hidden by rule" in note for note in told.notes)
    # A count that would be flagged whichever it is keeps its flag, and what that is.
    (point,) = (
        many := target_funnel_of(DEMO, [with_perforations(38, 28)], "perforation", tell=outside)
    ).points
    assert point.said == "alarm, above"
    assert "99.8% (alarm)" in many.caption


def real(checked: CheckedUnit) -> CheckedUnit:
    unit = checked.unit.model_copy(update={"invented": False, "own_studies": []})
    return replace(checked, unit=unit)


def test_what_is_invented_is_told_apart() -> None:
    made = with_perforations(1, 1)
    for review, unit, expected in (
        (DEMO, made, Invented.ALL),
        (DEMO, real(made), Invented.STUDIES),
        (PUBLISHED, made, Invented.UNIT),
        (PUBLISHED, real(made), Invented.NOTHING),
    ):
        assert strip_of(review, unit, "perforation").invented is expected
        assert range_funnel_of(review, [unit], PALLIATION).invented is expected
    mixed = [made, real(with_perforations(2, 2, label="Another", unit="another"))]
    names = [point.label for point in range_funnel_of(PUBLISHED, mixed, PALLIATION).points]
    assert names == ["invented: Hollowmere General", "Another"]


def test_flags_are_those_of_exact_tails_at_the_plans_target() -> None:
    target = FixedTarget(DEMO.plan.audit.targets["perforation"].rate)
    for events in (0, 3, 8, 9, 11, 20):
        (point,) = target_funnel_of(DEMO, [with_perforations(events, 0)], "perforation").points
        flag = against_target(events, 70, target).flag
        spots = {Flag.NONE: Spot.PLAIN, Flag.ALERT: Spot.ALERT, Flag.ALARM: Spot.ALARM}
        assert point.spot is spots[flag]
        assert bool(point.said) is (flag is not Flag.NONE)
        if flag is Flag.NONE:
            continue
        # Fewer perforations than expected may mean that some were not counted.
        is_many = events > 70 * target.rate
        assert point.said.endswith("above" if is_many else "below")
        action = "look at the cases" if is_many else "check ascertainment and denominator first"
        assert action in point.sentence


def test_the_target_stands_with_who_set_it_and_the_levels_of_the_lines() -> None:
    said = target_funnel_of(DEMO, [UNIT], "perforation")
    named = DEMO.plan.audit.targets["perforation"]
    for words in (named.according_to, named.decided_on, f"{100 * named.rate:.1f}%"):
        assert words in said.subtitle
    assert "95% (alert)" in said.caption
    assert "99.8% (alarm)" in said.caption
    assert any("no result can fall below the alert line" in note for note in said.notes)
    assert any(note.startswith("With ") and "alert from" in note for note in said.notes)


def test_an_outcome_without_a_target_has_no_target_funnel() -> None:
    with pytest.raises(KeyError):
        target_funnel_of(DEMO, [UNIT], "technical_success")


def test_a_share_of_other_cases_is_not_set_against_the_target() -> None:
    unit = with_perforations(1, 1)
    for group in unit.unit.groups:
        counted = group.outcomes["perforation"].model_copy(update={"of": "placed"})
        group.outcomes["perforation"] = counted
    said = target_funnel_of(DEMO, [unit], "perforation")
    assert not said.points
    assert "No unit here gives a share of" in said.nothing


def test_periods_of_one_unit_have_their_dates_and_say_nothing_of_spread() -> None:
    periods = [
        with_perforations(
            i, 5 - i % 4, period=UNIT.unit.period.model_copy(update={"from_": f"20{10 + i}-01"})
        )
        for i in range(11)
    ]
    said = target_funnel_of(DEMO, periods, "perforation")
    assert len({point.label for point in said.points}) == 11
    assert said.points[2].label == "2012 to 2026"
    assert said.subtitle.startswith("Hollowmere General, 2010-01 to 2026-03, 2011-01 to ")
    assert "differ" not in said.caption
    units = [
        replace(item, unit=item.unit.model_copy(update={"unit": f"u{i}", "label": f"Unit {i}"}))
        for i, item in enumerate(periods)
    ]
    assert "The 11 units differ" in target_funnel_of(DEMO, units, "perforation").caption


def test_periods_that_years_do_not_tell_apart_keep_their_months() -> None:
    period = UNIT.unit.period
    halves = [
        with_perforations(1, i, period=period.model_copy(update={"from_": a, "to": b}))
        for i, (a, b) in enumerate((("2024-01", "2024-06"), ("2024-07", "2024-12")))
    ]
    names = [point.label for point in range_funnel_of(DEMO, halves, PALLIATION).points]
    assert names == ["2024-01 to 2024-06", "2024-07 to 2024-12"]
    other = with_perforations(3, 1, label="Another", unit="another")
    mixed = target_funnel_of(DEMO, [*halves, other], "perforation")
    assert mixed.points[0].label == "Hollowmere General, 2024-01 to 2024-06"
    assert mixed.points[2].label == "Another"
    assert mixed.subtitle.startswith("Around the target")


def test_the_range_funnel_gives_the_verdicts_of_the_audit() -> None:
    for events in (0, 2, 8, 20):
        unit = with_perforations(events, 1)
        said = range_funnel_of(DEMO, [unit], PALLIATION)
        placed = standings(unit.unit, unit_answers(DEMO, unit.unit), DEMO.plan)
        standing = next(item for item in placed if item.question == PALLIATION)
        (point,) = said.points
        assert point.sentence.startswith(VERDICT_WORDS[standing.verdict])
        is_outside = events / 40 > max(s for n, s in said.band.upper if abs(n - 40) < 0.6)
        assert is_outside is (point.spot is Spot.BEYOND)
        assert said.centre == standing.benchmark.typical


def test_own_studies_of_every_unit_are_left_out_of_the_range() -> None:
    alone = range_funnel_of(DEMO, [with_perforations(1, 1)], PALLIATION)
    own = with_perforations(1, 1, own_studies=UNIT.unit.own_studies, label="B", unit="b")
    both = range_funnel_of(DEMO, [with_perforations(1, 1), own], PALLIATION)
    assert len(both.points) == 2
    studies = [int(said.subtitle.split(" studies")[0].split()[-1]) for said in (alone, both)]
    assert studies[1] == studies[0] - 1


def test_a_whole_is_not_set_against_all_studies() -> None:
    said = range_funnel_of(DEMO, [UNIT], Question("perforation"))
    assert said.nothing.startswith("Hollowmere General: ")
    assert "case mix" in said.nothing
    assert not said.points


def test_words_that_are_never_said_of_a_unit() -> None:
    rows = strip_of(DEMO, UNIT)
    ranges = range_funnel_of(DEMO, [UNIT], PALLIATION)
    targets = target_funnel_of(DEMO, [UNIT], "perforation")
    written = {
        "strips": svg_text(strip_layout(rows, A4)),
        "range": svg_text(funnel_layout(ranges, A4)),
        "target": svg_text(funnel_layout(targets, A4)),
    }
    for text in written.values():
        assert not [word for word in NEVER if word in text.lower()]
    for name in ("strips", "range"):
        assert "alert" not in written[name].lower()
        assert "alarm" not in written[name].lower()
    assert "95%" not in rows.strips[0].more
