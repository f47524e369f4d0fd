"""From a unit file and pools to a standing a count."""

import json
from dataclasses import replace

import pytest

from evsyn.audit.ascertainment import ascertainment, period_years
from evsyn.audit.comparable import Differs
from evsyn.audit.exact import exact_interval
from evsyn.audit.looks import looks
from evsyn.audit.predictive import MOST_CASES, student
from evsyn.audit.reasons import Caveat, Reason
from evsyn.audit.standing import standings
from evsyn.audit.verdict import Verdict, limits, verdict
from evsyn.cells.cell import Question
from evsyn.pooling.answer import Centre, Show
from evsyn.terms import AS_PRINTED, MIXED, NOT_STATED, OVERALL, UNPLACED
from tests.audit.made_up import (
    MU,
    PALLIATION,
    answer,
    count,
    group,
    palliation,
    plan,
    pooled,
    reading,
    unit,
)

PLAN = plan()


def stand(made, pools):
    return {(s.question, s.basis): s for s in standings(made, pools, PLAN)}


def one(events, total, made=None, **kinds):
    table = pooled(
        PALLIATION, made, **{k: kinds.pop(k) for k in ("bases", "windows") if k in kinds}
    )
    found = stand(palliation(events, total, **kinds), {PALLIATION: table})
    return next(s for (question, _), s in found.items() if question == PALLIATION)


def test_four_of_eight_is_called_more_and_unfavourable():
    found = one(4, 8)
    assert found.verdict is Verdict.MORE
    assert found.comparison.is_unfavourable
    assert found.comparison.ordinary.tail_at_least == pytest.approx(0.010, abs=0.0005)
    assert found.reason is None


# Newcombe RG. Stat Med 1998;17:857-872, exact limits, from memory; 1 of 29 and 0 of 20.
@pytest.mark.parametrize(
    ("events", "total", "low", "high"),
    [(1, 29, "0.0009", "0.1776"), (0, 20, "0.0000", "0.1684"), (15, 148, "0.0578", "0.1617")],
)
def test_printed_exact_intervals(events, total, low, high, printed):
    found = exact_interval(events, total)
    assert found.low == printed(low)
    assert found.high == printed(high)
    assert found.method == "clopper_pearson"


# JAMA 1995;274:1013 (letter on the rule of three): none in 50, 6%; none in 1,000, 0.3%.
# BMJ Qual Saf 2013;22:1042: none in 100, 3%. Eypasch E et al. BMJ 1995;311:619-620, as summed up
# in Bandolier 23: none in 842, "about 3" in 1,000, and none in 8,192, "about 3" in 10,000; both
# are cut and not rounded there, so one whole unit is allowed.
@pytest.mark.parametrize(
    ("total", "told", "units"),
    [
        (50, "0.06", 0.5),
        (100, "0.03", 0.5),
        (1000, "0.003", 0.5),
        (842, "0.003", 1),
        (8192, "0.0003", 1),
    ],
)
def test_printed_limits_without_an_event(total, told, units, printed):
    assert one(0, total).one_sided == printed(told, units)


def test_limits_without_an_event_and_without_an_exception_mirror():
    assert one(0, 20).one_sided == pytest.approx(1 - 0.05 ** (1 / 20))
    assert one(20, 20).one_sided == pytest.approx(0.05 ** (1 / 20))
    assert one(3, 20).one_sided is None


def test_expected_count_uses_the_mean_and_not_the_median():
    # Own computation, no printed source: mean 8.5% at a median of 7.4% with tau .6.
    assert one(3, 40).comparison.expected_count == pytest.approx(40 * 0.085, abs=0.02)


@pytest.mark.parametrize(
    ("made", "reason"),
    [
        (answer(0), Reason.NO_STUDY),
        (answer(1), Reason.ONE_STUDY),
        (answer(2), Reason.TWO_STUDIES),
        (answer(4, show=Show.ALL_ZERO, events=0, one_sided=0.015), Reason.ALL_ZERO),
        (answer(4, show=Show.ALL_FULL, events=50, one_sided=0.985), Reason.ALL_FULL),
        (answer(6, show=Show.REFUSED), Reason.REFUSED),
    ],
)
def test_without_a_row_to_read_nothing_is_compared(made, reason):
    found = one(3, 40, made)
    assert found.comparison is None
    assert found.reason is reason
    assert found.verdict is Verdict.NONE
    assert found.benchmark.k == made.k


def test_a_fit_that_failed_is_not_compared():
    made = answer(12)
    failed = type(made)(made.events, made.total, Show.MANY, made.crude, None, {}, None)
    assert one(3, 40, failed).reason is Reason.NO_READING
    assert one(3, 40, answer(12, reading(tau=0.0))).reason is Reason.NO_READING


def test_a_question_nobody_pooled_is_not_compared():
    found = stand(palliation(3, 40), {})[PALLIATION, "attempted"]
    assert (found.reason, found.benchmark) == (Reason.NOT_POOLED, None)


@pytest.mark.parametrize("k", [3, 4])
def test_three_or_four_studies_give_no_verdict(k):
    found = one(20, 40, answer(k))
    assert found.comparison.verdict is Verdict.NONE
    assert not found.comparison.judged
    assert found.reason is Reason.FEW_STUDIES
    assert found.caveats == (Caveat.UNRELIABLE, Caveat.SPREAD_GUESSED)
    assert found.comparison.limits.first_more is None


@pytest.mark.parametrize(("k", "guessed"), [(5, True), (9, True), (10, False)])
def test_spread_is_a_rough_guess_below_ten(k, guessed):
    found = one(3, 40, answer(k))
    assert found.comparison.judged
    assert (Caveat.SPREAD_GUESSED in found.caveats) is guessed


def test_other_denominators_are_not_compared():
    found = one(3, 40, bases=["placed"] * 30)
    assert (found.reason, found.differs) == (Reason.BASIS, (Differs.BASIS,))
    assert found.benchmark.bases == (("placed", 30),)


def test_a_shorter_window_may_be_more_but_not_fewer():
    many = one(30, 100, window="7_days")
    few = one(0, 100, window="7_days")
    assert (many.verdict, many.reason) == (Verdict.MORE, None)
    assert (few.verdict, few.reason) == (Verdict.NONE, Reason.WINDOW)
    assert few.comparison.judged
    assert few.comparison.limits.chance_fewer == 0


def test_a_longer_window_may_be_fewer_but_not_more():
    seven = ["7_days"] * 30
    assert one(30, 100, windows=seven).verdict is Verdict.NONE
    assert one(0, 100, windows=seven).verdict is Verdict.FEWER


def test_next_to_no_spread_uses_the_larger_plausible_one():
    larger = Centre(MU, 0.2, 0.5)
    found = one(7, 40, answer(9, reading(tau=0.02, low=0.0, high=0.8, larger=larger)))
    assert found.comparison.used_larger_spread
    assert found.comparison.tau == 0.5
    assert Caveat.SPREAD_NEAR_NOTHING in found.caveats
    assert found.comparison.limits.high == limits(student(larger, 9).pmf(40)).high
    plug_in = student(Centre(MU, 0.12, 0.02), 9).pmf(40)
    assert verdict(plug_in, 8) is not verdict(student(larger, 9).pmf(40), 8)


def test_sensitivity_is_told_and_does_not_move_the_verdict():
    found = one(11, 40).comparison
    assert found.verdict is Verdict.MORE
    assert found.at_low.tau < found.tau < found.at_high.tau
    assert found.at_low.verdict is Verdict.MORE
    assert found.at_high.verdict is Verdict.WITHIN
    assert found.at_low.tails.tail_at_least < found.ordinary.tail_at_least
    assert found.at_high.tails.tail_at_least > found.ordinary.tail_at_least


def test_a_beta_binomial_row_is_compared_by_its_own_distribution():
    row = reading(se=0.0, tau=0.0, rho=0.03, mean=0.074)
    found = one(6, 40, answer(12, row)).comparison
    assert found.judged
    # Own computation, no printed source: 6 or more of 40 at mean 7.4%, rho .03.
    assert found.ordinary.tail_at_least == pytest.approx(0.144, abs=0.0005)
    assert (found.tau, found.at_low, found.at_high) == (None, None, None)


def test_a_beta_binomial_row_without_spread_gives_no_verdict():
    found = one(15, 40, answer(12, reading(se=0.0, tau=0.0, rho=0.0, mean=0.074)))
    assert found.reason is Reason.NO_SPREAD
    assert found.verdict is Verdict.NONE


def test_groups_of_a_level_are_added_and_the_whole_gets_no_verdict():
    made = unit(
        group(20, {"perforation": count(2, 20)}, intent="palliation", delivery="through"),
        group(12, {"perforation": count(1, 12)}, intent="palliation", delivery="over_wire"),
        group(9, {"perforation": count(1, 9)}, intent="bridge", delivery="over_wire"),
    )
    levels = {
        ("intent", "palliation"): (3, 32),
        ("intent", "bridge"): (1, 9),
        ("delivery", "over_wire"): (2, 21),
        ("delivery", "through"): (2, 20),
        (OVERALL, OVERALL): (4, 41),
    }
    pools = {q: pooled(q) for q in (Question("perforation", s, lv) for s, lv in levels)}
    found = standings(made, pools, PLAN)
    assert {(s.stratum, s.level): (s.events, s.total) for s in found} == levels
    assert [s.level for s in found][-1] == OVERALL
    whole = found[-1]
    assert (whole.comparison, whole.reason) == (None, Reason.CASE_MIX)
    mix = {(row.stratum, row.level): (row.unit_total, row.pool_total) for row in whole.mix}
    assert mix["intent", "palliation"] == (32, 1500)
    assert mix["intent", "bridge"] == (9, 1500)
    assert all(s.mix == () for s in found[:-1])


def test_mixed_and_unstated_groups_meet_only_their_own_level():
    made = unit(
        group(20, {"perforation": count(2, 20)}, intent="palliation"),
        group(6, {"perforation": count(1, 6)}, intent=MIXED),
        group(5, {"perforation": count(0, 5)}, intent=NOT_STATED),
        group(4, {"perforation": count(0, 4)}, delivery="through"),
    )
    unplaced = Question("perforation", "intent", UNPLACED)
    found = stand(made, {unplaced: pooled(unplaced), PALLIATION: pooled(PALLIATION)})
    there = found[unplaced, "attempted"]
    assert (there.events, there.total) == (1, 15)
    assert there.comparison is not None
    assert Caveat.UNPLACED in there.caveats
    assert found[PALLIATION, "attempted"].total == 20


def test_groups_on_different_denominators_are_not_added():
    made = unit(
        group(20, {"perforation": count(2, 20)}, intent="palliation", delivery="through"),
        group(
            12,
            {"perforation": count(1, 10, of="placed")},
            intent="palliation",
            delivery="over_wire",
        ),
        group(5, {"success": count(5, 5, window="at_procedure")}, intent="palliation"),
    )
    found = stand(made, {PALLIATION: pooled(PALLIATION)})
    attempted, placed = found[PALLIATION, "attempted"], found[PALLIATION, "placed"]
    assert (attempted.events, attempted.total) == (2, 20)
    assert (placed.events, placed.total) == (1, 10)
    assert placed.reason is Reason.BASIS
    for standing in (attempted, placed):
        assert Caveat.SPLIT in standing.caveats
        assert Caveat.PARTIAL in standing.caveats


def test_the_units_own_study_may_not_be_its_yardstick():
    made = unit(
        group(20, {"perforation": count(2, 20)}, intent="palliation"), own_studies=["study-3"]
    )
    with pytest.raises(ValueError, match="study-3"):
        standings(made, {PALLIATION: pooled(PALLIATION)}, PLAN)


def test_the_own_study_left_out_is_named():
    made = unit(group(20, {"perforation": count(2, 20)}, intent="palliation"), own_studies=["ours"])
    found = stand(made, {PALLIATION: pooled(PALLIATION, own=("ours", "not-ours"))})
    assert found[PALLIATION, "attempted"].benchmark.own_left_out == ("ours",)


@pytest.mark.parametrize(("events", "total"), [(0, 1), (1, 1), (1, 2)])
def test_so_few_cases_that_no_count_could_lie_outside(events, total):
    wide = answer(12, reading(tau=1.2, k=12))
    found = one(events, total, wide)
    assert (found.verdict, found.reason) == (Verdict.NONE, Reason.TOO_FEW_CASES)
    assert not found.comparison.judged
    assert looks([found]).made == 0


def test_a_side_withheld_and_the_other_impossible_gives_no_verdict():
    often = answer(12, reading(-MU, k=12), events=46)
    found = one(37, 40, often, window="7_days")
    assert found.comparison.limits.first_more is None
    assert (found.verdict, found.reason) == (Verdict.NONE, Reason.WINDOW)


def test_an_outcome_that_is_not_pooled_leaves_no_sum_anywhere():
    made = unit(group(20, {"reblocked": count(2, 20, of="placed")}, intent="palliation"))
    asked = [Question("reblocked", "intent", "palliation"), Question("reblocked")]
    pools = {q: pooled(q, answer(6, show=Show.REFUSED), bases=["placed"] * 6) for q in asked}
    for found in standings(made, pools, PLAN):
        plain = found.to_dict()
        held = plain["benchmark"]
        assert (found.reason, held["k"]) == (Reason.REFUSED, 6)
        assert [held[name] for name in ("events", "total", "crude", "one_sided")] == [None] * 4
        assert plain["mix"] == []


def test_studies_without_a_year_are_counted():
    held = pooled(PALLIATION, answer(5))
    cells = tuple(replace(c, year=None) if i < 2 else c for i, c in enumerate(held.table.cells))
    table = replace(held, table=replace(held.table, cells=cells))
    found = stand(palliation(3, 40), {PALLIATION: table})[PALLIATION, "attempted"].benchmark
    assert (found.first_year, found.last_year, found.years_unknown) == (1992, 1994, 2)


def test_looks_hold_attained_chances():
    made = unit(
        group(8, {"perforation": count(4, 8)}, intent="palliation"),
        group(40, {"perforation": count(2, 40)}, intent="bridge"),
    )
    bridge = Question("perforation", "intent", "bridge")
    pools = {PALLIATION: pooled(PALLIATION), bridge: pooled(bridge)}
    found = looks(standings(made, pools, PLAN))
    worked = student(Centre(MU, 0.12, 0.6), 30)
    none = (1 - worked.pmf(8)[4:].sum()) * (1 - worked.pmf(40)[11:].sum())
    assert (found.made, found.outside) == (2, 1)
    assert found.chance_of_any == pytest.approx(1 - none)
    assert looks([]).made == 0


def test_counting_by_procedure_is_told():
    made = unit(
        group(20, {"perforation": count(2, 20)}, intent="palliation"), counted_by="procedure"
    )
    found = stand(made, {PALLIATION: pooled(PALLIATION)})[PALLIATION, "attempted"]
    assert Caveat.NOT_BY_PATIENT in found.caveats


def test_more_cases_than_the_comparison_is_made_for():
    assert one(300, MOST_CASES + 1).reason is Reason.TOO_MANY_CASES


def test_plain_data_goes_through_json():
    found = one(3, 40, bases=["attempted"] * 29 + [AS_PRINTED])
    back = json.loads(json.dumps(found.to_dict(), allow_nan=False))
    assert back["question"] == "perforation/intent=palliation"
    assert back["comparison"]["verdict"] == "within_the_range"
    assert back["comparison"]["ordinary"]["tail_doubled"] == pytest.approx(
        found.comparison.ordinary.tail_doubled
    )
    assert back["benchmark"]["bases"] == [["attempted", 29], ["as_printed", 1]]
    assert back["differs"] == ["bases_not_stated"]
    assert back["sources"] == [found.sources[0].to_dict()]


def test_ascertainment():
    made = unit(
        group(30, {"perforation": count(2, 30)}, intent="palliation"),
        group(11, {"perforation": count(0, 11)}, intent="bridge"),
        left_out=[{"count": 3, "why": "notes lost"}],
    )
    found = ascertainment(made)
    assert (found.counted, found.left_out, found.expected) == (41, 3, 50)
    assert found.share == pytest.approx(0.82)
    assert (found.says_complete, found.unaccounted) == (True, 6)


@pytest.mark.parametrize(
    ("first", "last", "years"),
    [
        ("2020", "2023", 4),
        ("2020-01", "2023-12", 4),
        ("2022-04", "2026-03", 4),
        ("2021-06-15", "2021-06", 1 / 12),
        ("2020-07", "2021", 1.5),
    ],
)
def test_period_in_years(first, last, years):
    made = unit(
        group(9, {"perforation": count(0, 9)}, intent="bridge"),
        period={"from": first, "to": last},
    )
    assert period_years(made) == pytest.approx(years)
