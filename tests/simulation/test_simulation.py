"""The simulation measures what it says, and the page shows what it measured."""

import numpy as np
import pytest
from scipy import special, stats

from evsyn.audit.comparison import compare
from evsyn.audit.verdict import TAIL, Verdict, limits
from evsyn.calibration.draw import table_of
from evsyn.calibration.units import Flagged
from evsyn.pooling.choose import answer_tables
from tests.simulation import kept, page
from tests.simulation.layout import Layout, ordinary_counts
from tests.simulation.results import Asked, Results, layouts
from tests.simulation.rules import Rule, flagged
from tests.simulation.run import simulate
from tests.simulation.tables import shares_of_little

SOME = Layout(7, 0.6, 0.074)


def pooled(*tables):
    return answer_tables(tables, between="dersimonian_laird", level=0.95)


@pytest.mark.parametrize("layout", [SOME, Layout(5, 0.0, 0.30), Layout(9, 0.9, 0.93)], ids=str)
@pytest.mark.parametrize("cases", [20, 80])
def test_the_flagged_counts_are_those_the_verdict_names(layout, cases):
    (answer,) = pooled(layout.review(1, 0))
    found = flagged(answer, cases, Rule.TOOL)
    for events in range(cases + 1):
        told = compare(events, cases, answer, better=layout.better, years=1.0).verdict
        assert (told is Verdict.MORE) == (events >= found.first_more)
        assert (told is Verdict.FEWER) == (events <= found.last_fewer)


def test_shares_agree_with_units_drawn_one_by_one():
    rng = np.random.default_rng(2)
    units = 200_000
    own = special.expit(special.logit(SOME.rate) + SOME.tau * rng.standard_normal(units))
    events = rng.binomial(80, own)
    found = Flagged(12, 1)
    shares = found.shares(SOME.ordinary[80])
    drawn = np.mean(events >= 12), np.mean(events <= 1)
    for share, count in zip(shares, drawn, strict=True):
        assert 0.02 < share < 0.3
        assert abs(share - count) < 4 * np.sqrt(share * (1 - share) / units)


def test_chances_of_an_ordinary_unit_agree_with_another_quadrature():
    nodes, weights = special.roots_hermitenorm(80)
    own = special.expit(special.logit(0.074) + 0.6 * nodes)
    counts = np.arange(21)[:, None]
    other = stats.binom.pmf(counts, 20, own) @ weights / np.sqrt(2 * np.pi)
    assert ordinary_counts(0.074, 0.6, 20) == pytest.approx(other, abs=1e-9)
    flat = stats.binom.pmf(counts[:, 0], 20, 0.074)
    assert ordinary_counts(0.074, 0.0, 20) == pytest.approx(flat, abs=1e-12)


def test_who_knows_the_truth_flags_at_most_a_fortieth_a_side():
    for cases, chances in SOME.ordinary.items():
        reach = limits(chances)
        last = -1 if reach.last_fewer is None else reach.last_fewer
        first = cases + 1 if reach.first_more is None else reach.first_more
        more, fewer = Flagged(first, last).shares(chances)
        assert max(more, fewer) <= TAIL
        assert more > 0.01


@pytest.mark.parametrize("rule", Rule)
def test_counting_the_patients_without_the_event_turns_the_flags_round(rule):
    drawn = SOME.review(3, 0).cells
    events, total = [one.events for one in drawn], [one.total for one in drawn]
    rest = [n - x for x, n in zip(events, total, strict=True)]
    one, other = pooled(table_of(events, total), table_of(rest, total))
    found = flagged(one, 80, rule)
    turned = flagged(other, 80, rule)
    assert (turned.first_more, turned.last_fewer) == (80 - found.last_fewer, 80 - found.first_more)


def test_a_review_without_an_event_flags_nothing():
    (answer,) = pooled(table_of([0] * 5, [30] * 5))
    for rule in Rule:
        assert flagged(answer, 20, rule) == Flagged(21, -1)


def test_a_doubled_risk_is_that_of_the_unfavourable_side():
    assert Layout(5, 0.6, 0.074).doubled == pytest.approx(0.148)
    assert Layout(5, 0.6, 0.93).doubled == pytest.approx(0.86)
    # logit .148 - logit .074 = .7765, over .6 = 1.294; the normal tail beyond it is .098.
    assert Layout(5, 0.6, 0.074).share_beyond == pytest.approx(0.0978, abs=5e-4)


def test_the_seed_tells_all_and_the_number_of_processes_nothing():
    layouts = [Layout(5, 0.3, 0.30), Layout(5, 0.0, 0.30)]
    alone = simulate(layouts, replications=3, seed=5)
    assert simulate(layouts, replications=3, seed=5, workers=2) == alone
    assert simulate(layouts, replications=3, seed=6) != alone
    first, more = SOME.review(5, 0), SOME.review(5, 1)
    assert first == SOME.review(5, 0)
    assert first != more


def test_means_and_errors_are_those_of_the_reviews():
    layout = Layout(5, 0.3, 0.30)
    (result,) = simulate([layout], replications=6, seed=5)
    answers = pooled(*(layout.review(5, number) for number in range(6)))
    shares = [flagged(answer, 80, Rule.TOOL).shares(layout.ordinary[80]) for answer in answers]
    for place, name in enumerate(("more", "fewer")):
        values = [share[place] for share in shares]
        mean, error = result["tool_80"][name]
        assert mean == pytest.approx(np.mean(values), abs=1e-6)
        assert error == pytest.approx(stats.sem(values), abs=1e-6)
    assert result["reviews"] == 6


def test_the_kept_results_are_of_this_code():
    # Flagged counts are whole numbers, so the shares only move when a verdict does.
    results = kept.read()
    now = kept.first_reviews(results["seed"])
    for one, other in zip(now, results["first_reviews"], strict=True):
        assert list(one) == list(other)
        for name, value in one.items():
            if isinstance(value, dict):
                near = {key: pytest.approx(pair, abs=2e-6) for key, pair in other[name].items()}
                assert value == near, "a verdict moved, or numpy draws otherwise: make simulate"
            else:
                assert value == other[name]


def test_the_unfavourable_side_is_fewer_where_more_are_welcome():
    results = Results(kept.read())
    for layout, name in ((Layout(15, 0.6, 0.93), "fewer"), (Layout(15, 0.6, 0.074), "more")):
        wanted = results.of(layout)["tool_80"][name]
        assert list(results.share(layout, 80, Asked.UNFAVOURABLE)[:2]) == wanted
        assert list(results.share(layout, 80, Asked.FAVOURABLE)[:2]) != wanted


def test_what_the_page_says_in_words_holds():
    results = Results(kept.read())

    def values(among, asked, rule=Rule.TOOL):
        return np.array([share.value for share in results.shares(among, asked, rule)])

    # "With five to nine studies that agree, far fewer ordinary units are flagged."
    assert values(layouts(k=[5, 7, 9], tau=[0, 0.05]), Asked.UNFAVOURABLE).max() < TAIL / 2
    # "With settings that differ and with many cases it is somewhat more than the paper says."
    most = max(results.shares(layouts(), Asked.UNFAVOURABLE))
    assert TAIL < most.value < 2 * TAIL
    assert (most.cases, most.layout.tau >= 0.3) == (80, True)
    # "A unit at twice the typical risk mostly passes unnoticed" (a rare event).
    assert values(layouts(rate=[0.03, 0.074, 0.93]), Asked.DOUBLED).max() < 0.5
    # "Of the four below the one that flags the most ordinary units."
    for side in (Asked.UNFAVOURABLE, Asked.FAVOURABLE):
        flags = [values(layouts(), side, rule) for rule in Rule]
        assert np.all(np.diff(flags, axis=0) >= -0.003)
    # "The larger plausible spread takes away a good part of the excess and not all of it."
    among = layouts(tau=[0.6])
    plain, tool = (
        np.array([share.value for share in shares_of_little(results, among, rule)])
        for rule in (Rule.PLUG_IN, Rule.TOOL)
    )
    assert np.all(tool < 0.85 * plain)
    assert tool.max() > 2 * TAIL


def test_the_page_holds_what_the_kept_results_say():
    text = page.PAGE.read_text(encoding="utf-8")
    assert page.filled(text, kept.read()) == text, "run: python -m tests.simulation --kept --write"


def test_a_changed_number_on_the_page_would_be_seen():
    results = kept.read()
    text = page.PAGE.read_text(encoding="utf-8")
    one = results["layouts"][0]
    one["tool_20"]["more"][0] += 0.2
    assert page.filled(text, results) != text
