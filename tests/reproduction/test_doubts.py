"""What often goes wrong in print is told, with file and line, and nothing else is."""

import pytest

from evsyn.reproduction.verdict import reproduce
from tests.reproduction.builders import PUBLISHED, published, redone, typed


def rules(found):
    return {finding.rule for finding in found.findings}


def one(found, rule):
    (finding,) = [finding for finding in found.findings if finding.rule == rule]
    assert finding.source.line > 0
    return finding


#: What is doubted of each published pooling; of those not named, nothing.
DOUBTED = {
    # Four trials stand in both subgroups.
    "sun2019_nausea_24h_rr_subgroups_double_counted": {"row-twice"},
    "peng2019_remission_rr_mh_fixed": {"egger-unlogged"},
    "luo2019_disease_free_survival": {"p-not-of-interval"},
    "china_ad_rural_generic_iv_random": {"logs-like-rates"},
}


@pytest.mark.parametrize("name", sorted(path.stem for path in PUBLISHED.glob("*.yaml")))
def test_published_poolings_are_doubted_where_they_should_be_and_nowhere_else(name):
    assert rules(redone(name)) == DOUBTED.get(name, set())


def test_each_trial_that_is_counted_twice_is_named_with_its_lines():
    found = redone("sun2019_nausea_24h_rr_subgroups_double_counted").findings
    said = [finding.message for finding in found]
    assert [words.split("'")[1] for words in said] == [
        "Gu 2009", "Kim 2004", "Pan 2014", "Zhou 2017",
    ]  # fmt: skip
    assert (
        "the same numbers as 'Gu 2009' of line 12 (groups 'all' and 'electrical only')" in said[0]
    )


def test_a_label_twice_with_other_numbers_is_told_apart(tmp_path):
    finding = one(typed(tmp_path, ("Bilberry 1998", "alder 1996")), "row-twice")
    assert "the label, not the numbers, of 'Alder 1996' of line 7" in finding.message
    assert finding.source.line == 8


def test_the_same_numbers_under_two_labels(tmp_path):
    changes = ("{events: 6, total: 55}, second: {events: 8, total: 50}",
               "{events: 4, total: 40}, second: {events: 9, total: 41}")  # fmt: skip
    assert "'Bilberry 1998'" in one(typed(tmp_path, changes), "row-twice").message


def test_degrees_of_freedom_that_do_not_fit_the_rows(tmp_path):
    # Li H, et al. Medicine 2018;97:e12924, of another outcome, gives 3 degrees of freedom in the
    # text and five trials in the figure.
    text = published("li2018_transfusion_rd_dl")
    finding = one(typed(tmp_path, ("df: 4", "df: 3"), text=text), "df-not-of-k")
    assert finding.message.startswith("3 degrees of freedom go with 4, and 5 rows")


def test_rows_without_an_event_are_not_counted_in_k(tmp_path):
    text = published("luo2017_complications_or_mh_fixed")
    line = "  - {study: Reed 2001, first: {events: 0, total: 9}, second: {events: 0, total: 8}}\n"
    checked = typed(tmp_path, ("printed:\n", f"{line}printed:\n"), text=text)
    assert "df-not-of-k" not in rules(checked)
    found = reproduce(checked)
    assert found.verdict == "reproduced"


def test_degrees_of_freedom_between_groups(tmp_path):
    text = published("huang2018_cornea_or_mh_subgroups")
    finding = one(typed(tmp_path, ("q: 1.96, df: 3", "q: 1.96, df: 4"), text=text), "df-not-of-k")
    assert "there are 4 groups" in finding.message


def test_a_percentage_no_count_can_give(tmp_path):
    # World J Gastroenterol 2016;22:7841, table 2: 0.8% beside a study of 55.
    text = published("wjg2016_oesstent_migration_random")
    change = ("events: 3, total: 55}", "events: 3, total: 55, percent: 0.8%}")
    finding = one(typed(tmp_path, change, text=text), "percent-impossible")
    assert "prints 0.8% beside 3 of 55; no count of 55 gives that" in finding.message


def test_a_percentage_of_another_count(tmp_path):
    change = ("{events: 4, total: 40}", "{events: 4, total: 40, percent: 12.5}")
    finding = one(typed(tmp_path, change), "percent-impossible")
    assert "of 40 that is 5" in finding.message
    assert "percent-impossible" not in rules(
        typed(tmp_path, ("{events: 4, total: 40}", "{events: 4, total: 40, percent: 10.0%}"))
    )


def test_an_interval_that_does_not_hold_its_estimate(tmp_path):
    text = published("wu2019_function_smd_dl")
    finding = one(typed(tmp_path, ("low: 0.25, high: 0.93", "low: 0.61, high: 0.93"), text=text),
                  "interval-astray")  # fmt: skip
    assert finding.message == "0.59 lies outside its own interval, 0.61 to 0.93"


def test_limits_that_are_not_even_about_their_ratio(tmp_path):
    text = published("luo2019_disease_free_survival")
    change = ("estimate: 2.32, low: 1.48, high: 3.64", "estimate: 2.32, low: 1.48, high: 3.16")
    finding = one(typed(tmp_path, change, text=text), "limits-uneven")
    # 3.16 is even about 2.32 as a difference, not as a ratio.
    assert finding.message.endswith("do not lie evenly about 2.32 as logarithms")


def test_weights_that_do_not_sum_to_100(tmp_path):
    text = published("sun2019_ponv_rr")
    finding = one(typed(tmp_path, ("weight: 36.7", "weight: 26.7"), text=text), "weights-not-whole")
    assert finding.message == "the printed weights sum to 89.9, not to 100"


def test_p_that_its_interval_contradicts():
    # Luo ZW, et al. BMC Cancer 2019;19:123: P 0.008 beside 1.43 (1.12 to 1.83), which implies
    # ln 1.43 / (ln (1.83 / 1.12) / 3.92) = 2.85, P 0.004.
    finding = one(redone("luo2019_disease_free_survival"), "p-not-of-interval")
    assert "goes with P 0.0034 to 0.0053" in finding.message


def test_p_and_q_and_i2_that_contradict_each_other(tmp_path):
    text = published("sun2019_ponv_rr")
    found = reproduce(
        typed(tmp_path, ("p_heterogeneity: 0.82", "p_heterogeneity: 0.28"), text=text)
    )
    assert "Q 2.93 on 6 degrees of freedom has P 0.82" in one(found, "p-not-of-q").message
    text = published("sun2019_nausea_24h_rr_subgroups_double_counted")
    found = reproduce(typed(tmp_path, ("i2: 14, tau2", "i2: 41, tau2"), text=text))
    assert "has 14.0 to 14.1" in one(found, "i2-not-of-q").message


def test_an_asymmetry_test_that_was_run_on_ratios_without_logarithms():
    # Peng L, et al. Bioscience Reports 2019;39:BSR20180943 prints t 7.050. 3.97 and about 6.9 were
    # computed by an independent route.
    finding = one(redone("peng2019_remission_rr_mh_fixed"), "egger-unlogged")
    assert "it is 3.97, on the ratios themselves 6.9" in finding.message


def test_an_asymmetry_test_on_logarithms_is_not_doubted(tmp_path):
    text = published("peng2019_remission_rr_mh_fixed")
    found = reproduce(typed(tmp_path, ("t: 7.050, p: 0.000", "t: 3.97, p: 0.0005"), text=text))
    assert not rules(found)
    assert found.verdict == "reproduced"
