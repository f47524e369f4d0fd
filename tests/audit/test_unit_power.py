"""What a number of cases could have shown, against printed caseloads and scipy."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from evsyn.audit.power import (
    LARGEST_EXACT,
    at_least,
    caseload,
    cases_needed,
    cases_to_exclude,
    critical_count,
    exact_power,
    power,
)
from evsyn.audit.predictive import student
from evsyn.audit.verdict import limits
from evsyn.pooling.answer import Centre
from evsyn.terms import Better
from tests.audit.made_up import MU

WORKED = student(Centre(MU, 0.12, 0.6), 30)


def worked_power(cases, years):
    return power(
        limits(WORKED.pmf(cases)),
        units=WORKED,
        typical=0.074,
        cases=cases,
        years=years,
        better=Better.FEWER,
    )


# Dimick JB, Welch HG, Birkmeyer JD. JAMA 2004;292:847-851: caseloads to detect a doubling. Read in
# the abstract: all caseloads, and the base rates of the first and the last; the other rates are
# from memory, as are the one-sided 5% and 80% power that give every figure exactly.
@pytest.mark.parametrize(
    ("rate", "told"),
    [
        (0.107, 64),  # craniotomy
        (0.091, 77),  # oesophageal resection
        (0.083, 86),  # pancreatic resection
        (0.054, 138),  # heart surgery in children
        (0.039, 195),  # aortic aneurysm repair
        (0.035, 219),  # coronary bypass
        (0.003, 2668),  # hip replacement
    ],
)
def test_printed_caseloads(rate, told):
    assert caseload(rate, 2 * rate) == told


# Own computation, no printed source: exact power at 7.4% against 14.8%, one-sided 5%.
@pytest.mark.parametrize(
    ("cases", "told"),
    [(20, "16"), (40, "38"), (60, "54"), (100, "73.5"), (150, "86"), (200, "95")],
)
def test_worked_exact_power(cases, told, printed):
    found = exact_power(np.array([cases]), 0.074, 0.148)[0]
    assert 100 * found == printed(told)


# Own computation, no printed source: 80% is first reached at 106 and holds from 121.
def test_power_is_a_saw():
    reached = exact_power(np.arange(1, 201), 0.074, 0.148) >= 0.8
    assert 1 + np.argmax(reached) == 106
    assert not reached.all()
    assert cases_needed(0.074, 0.148) == (121, True)


# n = ln 0.05 / ln(1 - p) rounded up; 59 and 299 are the usual textbook values.
@pytest.mark.parametrize(
    ("rate", "told"), [(0.01, 299), (0.02, 149), (0.05, 59), (0.074, 39), (0.1, 29), (0.15, 19)]
)
def test_cases_without_one_that_rule_a_rate_out(rate, told):
    assert cases_to_exclude(rate) == told


def test_rare_risks_fall_back_on_the_formula():
    needed, is_exact = cases_needed(0.003, 0.006)
    assert (needed, is_exact) == (2668, False)


def test_the_formula_never_undercuts_the_search():
    needed, is_exact = cases_needed(0.0041, 0.0082)
    assert not is_exact
    assert needed > LARGEST_EXACT


@given(st.integers(1, 400), st.floats(0.005, 0.6))
def test_critical_counts_agree_with_scipy(cases, rate):
    found = int(critical_count(np.array([cases]), rate)[0])
    assert stats.binom.sf(found - 1, cases, rate) <= 0.05 + 1e-12
    assert stats.binom.sf(found - 2, cases, rate) > 0.05 - 1e-12


@given(st.integers(-2, 60), st.integers(1, 50), st.floats(0.001, 0.999))
def test_binomial_tails_agree_with_scipy(count, cases, rate):
    assert at_least(count, cases, rate) == pytest.approx(
        stats.binom.sf(count - 1, cases, rate), abs=1e-12
    )


# Own computation, no printed source: noticing a doubling, by the range and by the average.
def test_worked_notice():
    forty = worked_power(40, 40 / 15)
    assert 100 * forty.notice == pytest.approx(2.7, abs=0.05)
    assert 100 * forty.notice_average == pytest.approx(38, abs=0.5)
    assert forty.cases_needed == 121
    assert forty.years_needed == pytest.approx(121 / 15)
    hundred = worked_power(100, 5)
    assert 100 * hundred.notice == pytest.approx(1.0, abs=0.05)
    assert hundred.notice_average == pytest.approx(
        stats.binom.sf(stats.binom.ppf(0.95, 100, 0.074), 100, 0.148)
    )


def test_success_is_judged_by_its_failures():
    mirrored = student(Centre(-MU, 0.12, 0.6), 30)
    harm = worked_power(40, 2)
    success = power(
        limits(mirrored.pmf(40)),
        units=mirrored,
        typical=0.926,
        cases=40,
        years=2,
        better=Better.MORE,
    )
    names = ("typical", "doubled", "notice", "share_beyond", "notice_average", "years_needed")
    for name in names:
        assert getattr(success, name) == pytest.approx(getattr(harm, name), abs=1e-9)
    assert success.cases_needed == harm.cases_needed
    assert success.limits.last_fewer == 40 - harm.limits.first_more


def test_no_count_can_be_called_more_so_nothing_is_noticed():
    two = worked_power(1, 1)
    assert two.limits.first_more is None
    assert two.notice == 0


def test_twice_a_high_risk_stops_at_95_percent():
    units = student(Centre(0.5, 0.1, 0.3), 30)
    reach = limits(units.pmf(30))
    capped = power(reach, units=units, typical=0.6, cases=30, years=1, better=Better.FEWER)
    assert capped.doubled == 0.95
    full = power(reach, units=units, typical=0.96, cases=30, years=1, better=Better.FEWER)
    assert full is None


def test_doubled_risks_that_ordinary_units_have_too():
    forty = worked_power(40, 2)
    beyond = (stats.logistic.ppf(0.148) - MU) / np.hypot(0.6, 0.12)
    assert forty.share_beyond == pytest.approx(stats.t.sf(beyond, 29), abs=0.001)
    assert forty.is_ordinary(forty.limits.chance_more)
    narrow = student(Centre(MU, 0.01, 0.01), 30)
    alike = power(
        limits(narrow.pmf(10)), units=narrow, typical=0.074, cases=10, years=1, better=Better.FEWER
    )
    assert alike.is_small
    assert alike.share_beyond < 1e-6
    assert not alike.is_ordinary(alike.limits.chance_more)
