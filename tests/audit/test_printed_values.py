"""Published counts and worked numbers that no other test of the audit holds."""

import pytest
from scipy import special

from evsyn.audit.exact import exact_interval
from evsyn.audit.predictive import same_rate, student
from evsyn.pooling.answer import Centre
from evsyn.pooling.prediction import prediction_interval
from evsyn.wording.numbers import percent
from tests.audit.made_up import MU, reading

CENTRE = Centre(MU, 0.12, 0.6)


# van Halsema EE et al. Gastrointest Endosc 2014;79:970-982: 207 perforations in 4,086 patients;
# the limits are own computation. Its pooled 7.4% lies outside them: a pool is not a sum of counts.
def test_summed_perforations_of_a_published_pool(printed):
    found = exact_interval(207, 4086)
    assert percent(207 / 4086) == "5.1%"
    assert 100 * found.low == printed("4.4")
    assert 100 * found.high == printed("5.8")
    assert found.high < 0.074


# Published as 4 of 208 (PMC9293325); the limits are own computation.
def test_few_perforations_of_a_standardised_cohort(printed):
    found = exact_interval(4, 208)
    assert 100 * found.low == printed("0.5")
    assert 100 * found.high == printed("4.9")


# CReST Collaborative Group. Br J Surg 2022 (abstract): relieved in 98 of the 119 in whom a stent
# was tried, printed as 82.4%; 123 were allocated to one, which gives 79.7% (own computation).
@pytest.mark.parametrize(("total", "told"), [(119, "82.4%"), (123, "79.7%")])
def test_one_count_over_two_denominators(total, told):
    assert percent(98 / total) == told


# Own computation, no printed source: the same tails with no spread, with normal spread, with t.
@pytest.mark.parametrize(
    ("cases", "events", "binomial", "normal", "heavy"),
    [
        (20, 5, "0.0134", "0.0579", "0.0612"),
        (40, 6, "0.0722", "0.1816", "0.1851"),
        (40, 8, "0.0081", "0.0750", "0.0791"),
        (100, 10, "0.2052", "0.3465", "0.3482"),
    ],
)
def test_worked_tails_by_three_kinds_of_spread(cases, events, binomial, normal, heavy, printed):
    flat = same_rate(reading(se=0.0), 30).pmf(cases)
    assert flat[events:].sum() == printed(binomial)
    # With very many studies the t is the normal.
    assert student(CENTRE, 10**7).pmf(cases)[events:].sum() == printed(normal)
    assert student(CENTRE, 30).pmf(cases)[events:].sum() == printed(heavy)


# Own computation, no printed source: range for a new unit, 30 studies, by t on 29, by the older t
# on 28, and by the normal.
def test_worked_ranges_for_a_new_unit(printed):
    for df, high in (("k-1", "21.8"), ("k-2", "21.9")):
        limits = prediction_interval(MU, 0.12, 0.36, 30, df=df)
        assert 100 * special.expit(limits[0]) == printed("2.2")
        assert 100 * special.expit(limits[1]) == printed(high)
    normal = student(CENTRE, 10**7)
    assert 100 * special.expit(normal.quantile(0.025)) == printed("2.4")
    assert 100 * special.expit(normal.quantile(0.975)) == printed("21.0")


# Own computation, no printed source: expected counts use the mean over settings (8.5% at a median
# of 7.4%); the mean of the t draw rises as studies get fewer, as it also holds what is not known.
@pytest.mark.parametrize(("k", "told"), [(30, "8.6"), (5, "9.4"), (3, "10.9")])
def test_few_studies_inflate_the_mean_of_the_draw(k, told, printed):
    log_odds, weights = student(CENTRE, k).nodes(40)
    assert 100 * (weights @ special.expit(log_odds)) == printed(told)
    assert 100 * reading(k=k).mean == printed("8.5")
