"""A unit's whole against what its own case mix would give: which levels, which refusals, what E."""

import json
import math
from dataclasses import asdict

import numpy as np
import pytest
from scipy import special, stats

from evsyn.audit.comparable import Differs
from evsyn.audit.comparison import compare
from evsyn.audit.divisions import Refusal, Stop, division_questions, divisions
from evsyn.audit.predictive import MOST_CASES
from evsyn.audit.reasons import Reason
from evsyn.audit.standardisation import standardisation
from evsyn.audit.verdict import Verdict
from evsyn.cells.cell import Question, question_at
from evsyn.pooling.answer import Centre, Show
from evsyn.terms import NOT_STATED, UNPLACED, Better
from tests.audit.made_up import MU, answer, count, group, plan, pooled, reading, unit

PLAN = plan()
INTENT, DELIVERY = ("intent",), ("delivery",)
CROSSED = ("intent", "delivery")


def at(*levels, strata=CROSSED, outcome="perforation"):
    return question_at(outcome, zip(strata, levels, strict=False))


def cases(events, total, *levels, **kinds):
    strata = {s: lv for s, lv in zip(CROSSED, levels, strict=False) if lv is not None}
    return group(total, {"perforation": count(events, total, **kinds)}, **strata)


def pools(made, *, default=None, **kinds):
    """Pool every question the unit may need; some of them as given, by their key's end."""
    given = {} if default is None else default
    return {
        question: pooled(question, given.get(question.levels), **kinds)
        for question in division_questions(made, PLAN)
    }


def stand(made, default=None, outcome="perforation", **kinds):
    return standardisation(made, PLAN, outcome, pools(made, default=default, **kinds))


FOUR = unit(
    cases(2, 24, "palliation", "through"),
    cases(3, 12, "palliation", "over_wire"),
    cases(2, 30, "bridge", "through"),
    cases(1, 6, "bridge", "over_wire"),
)


def rated(rate, k=30, **more):
    return answer(k, reading(float(special.logit(rate)), k=k, **more))


TOY = {
    ("palliation", "through"): rated(0.10),
    ("palliation", "over_wire"): rated(0.08),
    ("bridge", "through"): rated(0.05),
    ("bridge", "over_wire"): rated(0.04),
}


# Own computation, no printed source: se .12, tau .6; means give 5.8 and medians 5.1, so that an
# ordinary unit held against medians would show 1.14 times what is expected.
def test_expected_counts_use_means_and_not_medians():
    found = stand(FOUR, TOY).found
    assert found.strata == CROSSED
    assert found.expected == pytest.approx(5.8, abs=0.05)
    medians = sum(
        level.total * special.expit(TOY[level.question.levels].reading.centre.mu)
        for level in found.levels
    )
    assert medians == pytest.approx(5.1, abs=0.005)
    assert found.expected / medians == pytest.approx(1.14, abs=0.005)
    assert found.excess == pytest.approx(8 - found.expected)
    assert (found.limits.low, found.limits.high) == (0, 16)
    assert (found.separately.limits.low, found.separately.limits.high) == (1, 13)


def test_the_ratio_has_exact_limits():
    ratio = stand(FOUR, TOY).found.ratio
    assert (ratio.observed, ratio.interval.method) == (8, "exact_poisson")
    assert ratio.value == pytest.approx(8 / ratio.expected)
    assert ratio.interval.low == pytest.approx(stats.chi2.ppf(0.025, 16) / 2 / ratio.expected)
    assert ratio.interval.high == pytest.approx(stats.chi2.isf(0.025, 18) / 2 / ratio.expected)


def test_the_finest_division_comes_first():
    assert divisions(FOUR, PLAN) == (CROSSED, INTENT, DELIVERY)
    assert divisions(unit(cases(1, 9, "bridge")), PLAN) == (INTENT,)
    assert divisions(unit(cases(1, 9)), PLAN) == ()


def test_pools_are_asked_for_only_where_the_unit_has_cases():
    made = unit(cases(1, 9, "bridge", "through"), cases(2, 20, "palliation", "through"))
    assert division_questions(made, PLAN) == (
        at("palliation", "through"),
        at("bridge", "through"),
        Question("perforation", "intent", "palliation"),
        Question("perforation", "intent", "bridge"),
        Question("perforation", "delivery", "through"),
    )


def test_every_case_stands_in_one_level():
    found = stand(FOUR, TOY).found
    assert [level.question for level in found.levels] == [at(*levels) for levels in (
        ("palliation", "over_wire"), ("palliation", "through"),
        ("bridge", "over_wire"), ("bridge", "through"),
    )]  # fmt: skip
    assert (sum(one.events for one in found.levels), sum(one.total for one in found.levels)) == (
        8,
        72,
    )
    assert sum(one.expected for one in found.levels) == pytest.approx(found.expected)


@pytest.mark.parametrize(
    ("made", "reason"),
    [
        (answer(0), Reason.NO_STUDY),
        (answer(1), Reason.ONE_STUDY),
        (answer(2), Reason.TWO_STUDIES),
        (answer(4, show=Show.ALL_ZERO, events=0), Reason.ALL_ZERO),
        (rated(0.05, k=4), Reason.FEW_STUDIES),
    ],
)
def test_one_level_without_a_verdict_passes_the_division_over(made, reason):
    weak = ("bridge", "over_wire")
    found = stand(FOUR, {**TOY, weak: made})
    assert found.refused == (Refusal(CROSSED, reason, at(*weak)),)
    assert found.found.strata == INTENT
    assert found.found.verdict is Verdict.WITHIN
    # No case was dropped with the level.
    assert sum(level.total for level in found.found.levels) == 72


def test_a_level_nobody_pooled_stops_the_division():
    held = pools(FOUR, default=TOY)
    del held[at("bridge", "through")]
    found = standardisation(FOUR, PLAN, "perforation", held)
    assert found.refused == (Refusal(CROSSED, Reason.NOT_POOLED, at("bridge", "through")),)


def test_where_no_division_can_be_used_each_is_told():
    none = dict.fromkeys([("palliation",), ("over_wire",), ("palliation", "through")], answer(2))
    found = stand(FOUR, none)
    assert found.found is None
    assert found.refused == (
        Refusal(CROSSED, Reason.TWO_STUDIES, at("palliation", "through")),
        Refusal(INTENT, Reason.TWO_STUDIES, Question("perforation", "intent", "palliation")),
        Refusal(DELIVERY, Reason.TWO_STUDIES, Question("perforation", "delivery", "over_wire")),
    )
    assert (found.events, found.total) == (8, 72)


def test_three_or_four_studies_are_shown_without_a_verdict_where_nothing_else_is():
    few = rated(0.05, k=3)
    default = {**TOY, ("bridge", "through"): few, ("bridge",): few, ("through",): answer(2)}
    found = stand(FOUR, default)
    assert found.refused == ()
    assert found.found.strata == CROSSED
    assert (found.found.verdict, found.found.reason) == (Verdict.NONE, Reason.FEW_STUDIES)
    assert not found.found.judged
    assert found.found.limits.first_more is None


def test_a_level_without_known_spread_gives_no_verdict():
    flat = answer(12, reading(se=0.0, tau=0.0, rho=0.0, mean=0.074))
    made = unit(cases(20, 40, "palliation"))
    found = stand(made, {("palliation",): flat}).found
    assert (found.verdict, found.reason) == (Verdict.NONE, Reason.NO_SPREAD)


def test_mixed_and_unstated_groups_meet_only_their_own_pool():
    made = unit(
        cases(2, 20, "palliation", "through"),
        cases(1, 6, "palliation", NOT_STATED),
        cases(0, 5, None, "through"),
    )
    asked = set(division_questions(made, PLAN))
    assert at("palliation", UNPLACED) in asked
    assert at(UNPLACED, "through") in asked
    held = stand(made, {("palliation", UNPLACED): answer(0)})
    assert held.refused[0] == Refusal(CROSSED, Reason.NO_STUDY, at("palliation", UNPLACED))
    found = stand(made).found
    assert [level.total for level in found.levels] == [20, 6, 5]


def test_what_forbids_every_division_is_told_once():
    split = unit(cases(2, 20, "palliation"), cases(1, 9, "bridge", of="placed"))
    assert stand(split).refused == (Refusal((), Stop.SPLIT),)
    windows = unit(cases(2, 20, "palliation"), cases(1, 9, "bridge", window="7_days"))
    assert stand(windows).refused == (Refusal((), Stop.SPLIT),)
    assert stand(unit(cases(2, 20))).refused == (Refusal((), Stop.NO_STRATUM),)
    late = unit(cases(2, 20, "palliation", window="follow_up"))
    assert stand(late).refused == (Refusal((), Reason.NO_FOLLOW_UP),)
    many = unit(cases(2, MOST_CASES, "palliation"), cases(1, 1, "bridge"))
    assert stand(many).refused == (Refusal((), Reason.TOO_MANY_CASES),)
    late = group(20, {"reblocked": count(2, 20, of="placed")}, intent="palliation")
    refused = standardisation(unit(late), PLAN, "reblocked", {}).refused
    assert refused == (Refusal((), Reason.REFUSED),)


def test_an_outcome_the_unit_does_not_report_has_no_whole():
    assert standardisation(FOUR, PLAN, "success", {}) is None


def test_other_denominators_stop_a_level():
    made = unit(cases(2, 20, "palliation"))
    found = stand(made, bases=["placed"] * 30)
    question = Question("perforation", "intent", "palliation")
    assert found.refused == (Refusal(INTENT, Reason.BASIS, question),)


def test_a_shorter_window_lets_the_whole_be_more_but_not_fewer():
    made = unit(
        cases(30, 60, "palliation", window="7_days"), cases(9, 40, "bridge", window="7_days")
    )
    found = stand(made).found
    assert (found.verdict, found.limits.last_fewer) == (Verdict.MORE, None)
    assert all(Differs.WINDOW_SHORTER in level.differs for level in found.levels)
    few = unit(
        cases(0, 160, "palliation", window="7_days"), cases(0, 40, "bridge", window="7_days")
    )
    silent = stand(few).found
    assert (silent.verdict, silent.reason) == (Verdict.NONE, Reason.WINDOW)


def test_windows_that_forbid_either_verdict_stop_the_division():
    made = unit(cases(2, 20, "palliation", window="7_days"), cases(1, 9, "bridge", window="7_days"))
    questions = division_questions(made, PLAN)
    windows = {"palliation": "30_days", "bridge": "at_procedure"}
    held = {q: pooled(q, windows=[windows[q.level]] * 30) for q in questions}
    found = standardisation(made, PLAN, "perforation", held)
    assert found.refused == (Refusal(INTENT, Reason.WINDOW, questions[0]),)


def test_too_few_cases_give_no_verdict():
    wide = answer(12, reading(tau=1.2, k=12))
    made = unit(cases(1, 1, "palliation"), cases(0, 1, "bridge"))
    found = stand(made, {("palliation",): wide, ("bridge",): wide}).found
    assert (found.verdict, found.reason, found.judged) == (
        Verdict.NONE, Reason.TOO_FEW_CASES, False,
    )  # fmt: skip


def test_one_level_is_judged_as_that_level_is():
    """With a single level the whole is the level, and so is all that is said of it."""
    for events, total in ((0, 40), (3, 40), (11, 40), (2, 36), (5, 64)):
        found = stand(unit(cases(events, total, "palliation"))).found
        alone = compare(events, total, answer(), better=Better.FEWER, years=1)
        assert found.verdict is alone.verdict
        assert found.is_unfavourable is alone.is_unfavourable
        assert found.limits.first_more == alone.limits.first_more
        assert found.centile == pytest.approx(alone.centile, abs=1e-8)
        assert found.average.tail_at_least == pytest.approx(alone.average.tail_at_least, abs=1e-8)
        assert found.expected == pytest.approx(alone.expected_count)
        for name in ("typical", "doubled", "notice", "share_beyond", "notice_average"):
            assert getattr(found.notice, name) == pytest.approx(
                getattr(alone.power, name), abs=1e-7
            )
        assert found.separately is None


def test_a_count_beyond_the_range_is_unfavourable_and_the_sensitivity_leaves_it():
    many = unit(cases(9, 24, "palliation", "through"), cases(3, 12, "palliation", "over_wire"),
                cases(2, 30, "bridge", "through"), cases(3, 6, "bridge", "over_wire"))  # fmt: skip
    found = stand(many, TOY).found
    assert (found.verdict, found.is_unfavourable) == (Verdict.MORE, True)
    some = unit(cases(7, 24, "palliation", "through"), cases(3, 12, "palliation", "over_wire"),
                cases(2, 30, "bridge", "through"), cases(3, 6, "bridge", "over_wire"))  # fmt: skip
    found = stand(some, TOY).found
    assert (found.verdict, found.separately.verdict) == (Verdict.WITHIN, Verdict.MORE)


def test_a_doubled_risk_at_every_level_is_noticed_as_often_as_its_poisson_binomial_says():
    found = stand(FOUR, TOY).found
    rates = np.repeat((0.10, 0.08, 0.05, 0.04), (24, 12, 30, 6))
    assert found.notice.typical == pytest.approx(rates.mean())
    assert found.notice.doubled == pytest.approx(2 * rates.mean())
    assert not found.notice.is_capped

    def pmf(p):
        made = np.ones(1)
        for one in p:
            made = np.convolve(made, [1 - one, one])
        return made

    raised, usual = pmf(2 * rates), pmf(rates)
    assert found.notice.notice == pytest.approx(raised[17:].sum(), abs=1e-9)
    critical = next(x for x in range(73) if usual[x:].sum() <= 0.05)
    assert found.notice.notice_average == pytest.approx(raised[critical:].sum(), abs=1e-9)


def success(*groups):
    return unit(
        *(
            group(n, {"success": count(x, n, window="at_procedure")}, intent=level)
            for x, n, level in groups
        )
    )


def test_success_is_judged_by_its_failures():
    harm = stand(unit(cases(3, 27, "palliation"), cases(2, 14, "bridge"))).found
    made = success((24, 27, "palliation"), (12, 14, "bridge"))
    mirror = answer(30, reading(-MU), events=46)
    tables = {q: pooled(q, mirror) for q in division_questions(made, PLAN)}
    found = standardisation(made, PLAN, "success", tables).found
    assert found.expected == pytest.approx(41 - harm.expected)
    assert (found.ratio.observed, found.ratio.expected) == (5, pytest.approx(harm.ratio.expected))
    assert found.limits.last_fewer == 41 - harm.limits.first_more
    for name in ("typical", "doubled", "notice", "share_beyond", "notice_average"):
        assert getattr(found.notice, name) == pytest.approx(getattr(harm.notice, name), abs=1e-7)
    few = standardisation(
        success((10, 27, "palliation"), (9, 14, "bridge")), PLAN, "success", tables
    )
    assert (few.found.verdict, few.found.is_unfavourable) == (Verdict.FEWER, True)


def test_twice_a_high_risk_stops_at_95_percent():
    high = answer(12, reading(0.5, k=12), events=30)
    made = unit(cases(20, 40, "palliation"), cases(3, 40, "bridge"))
    found = stand(made, {("palliation",): high}).found
    assert found.notice.is_capped
    assert found.notice.doubled == pytest.approx((0.95 + 2 * 0.074) / 2)
    top = answer(12, reading(3.5, k=12), events=48)
    assert stand(unit(cases(39, 40, "palliation")), {("palliation",): top}).found.notice is None


def test_unknown_outcomes_stand_on_neither_side():
    some = group(24, {"perforation": {**count(2, 24), "unknown": 4}}, intent="palliation")
    none = group(3, {"perforation": {**count(0, 3), "unknown": 3}}, intent="bridge")
    found = stand(unit(some, none))
    assert (found.events, found.total, found.unknown) == (2, 20, 7)
    assert [level.total for level in found.found.levels] == [20]


def test_next_to_no_spread_uses_the_larger_plausible_one():
    thin = answer(9, reading(tau=0.02, larger=Centre(MU, 0.2, 0.5), k=9))
    made = unit(cases(3, 40, "palliation"), cases(1, 20, "bridge"))
    found = stand(made, {("palliation",): thin}).found
    assert [level.used_larger_spread for level in found.levels] == [True, False]


def test_the_units_own_study_may_not_be_its_yardstick():
    made = unit(cases(2, 20, "palliation"), own_studies=["study-3"])
    with pytest.raises(ValueError, match="study-3"):
        stand(made)


def test_all_of_it_is_plain_data():
    plain = json.dumps(asdict(stand(FOUR, TOY)), allow_nan=False)
    assert json.loads(plain)["found"]["levels"][0]["question"]["also"] == [
        ["delivery", "over_wire"]
    ]
    assert math.isfinite(json.loads(plain)["found"]["ratio"]["value"])
