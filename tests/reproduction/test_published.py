"""Published poolings, each found under the variant that gives every number it prints.

The files in ``published/`` hold rows and print of one plot each, with their citation. The variant
beside each name was found independently, by another route: which centre Q
was taken about, which estimator, where half was added.
"""

import pytest

from evsyn.reproduction.compare import Match
from evsyn.reproduction.verdict import Verdict, reproduce
from tests.reproduction.builders import PUBLISHED, published, redone, typed

ABOUT_SUMS = "random/dersimonian_laird/ordinary/q_about_mantel_haenszel"
RANDOM = "random/dersimonian_laird/ordinary"
SUMS = "mantel_haenszel/ordinary"

VARIANTS = {
    "sun2019_ponv_rr": ABOUT_SUMS,
    "sun2019_vomiting_6h_rr_zero_cell": f"{ABOUT_SUMS}/half_in_sums",
    "sun2019_vomiting_24h_rr": ABOUT_SUMS,
    "sun2019_nausea_24h_rr_subgroups_double_counted": ABOUT_SUMS,
    "sun2019_nausea_vrs_md": RANDOM,
    "xin2018_response_rr_mh_fixed": f"{SUMS}/half_in_sums",
    "luo2017_complications_or_mh_fixed": SUMS,
    "luo2017_cobb_md_iv_fixed": "common/ordinary",
    "luo2017_kyphosis_md_iv_random": RANDOM,
    "lu2018_dominant_or_mh_fixed": SUMS,
    "lu2018_recessive_or_mh_fixed_zero_cell": f"{SUMS}/half_in_sums",
    "huang2018_cornea_or_mh_subgroups": SUMS,
    "liao2018_falls_or_iv_fixed": "common/ordinary/half_in_effects",
    "china_ad_rural_generic_iv_random": RANDOM,
    "zegeye2019_nonadherence_proportion_dl_subgroups_egger": f"{RANDOM}/se_by_1.96",
    "luo2018_vitd_wmd_dl_subgroups_egger": f"{RANDOM}/se_by_1.96",
    "wu2019_function_smd_dl": f"{RANDOM}/se_by_1.96",
    "ji2018_drb1_16_or_mh_fixed": SUMS,
    "ji2018_drb1_16_or_dl": RANDOM,
    "peng2019_remission_rr_mh_fixed": SUMS,
    "react2020_mortality_or_iv_fixed": "common/ordinary",
    "react2020_mortality_or_hartung_knapp": "random/paule_mandel/hartung_knapp",
    "jayasooriya2023_passive_no_clinical_glmm": "exact/maximum_likelihood/ordinary/logit",
    "jayasooriya2023_active_glmm": "exact/maximum_likelihood/ordinary/logit",
    "blanc2019_ipf_any_paf_raw": f"{RANDOM}/raw",
    "blanc2019_ipf_metal_paf_ft": f"{RANDOM}/freeman_tukey",
    "blanc2019_pap_burden_ft_k29": f"{RANDOM}/freeman_tukey",
    "li2018_transfusion_rd_dl": f"{ABOUT_SUMS}/se_by_1.96",
}
#: Numbers that cannot be had from their own rows: an asymmetry test that was run on ratios without
#: logarithms, a P that its own interval contradicts, and a pooled percentage.
MISPRINTED = {
    "peng2019_remission_rr_mh_fixed": {("asymmetry", "t"), ("asymmetry", "p")},
    "luo2019_disease_free_survival": {("overall", "p_effect")},
    "wjg2016_oesstent_migration_random": {
        ("overall", "estimate"), ("overall", "low"), ("overall", "high"),
    },
}  # fmt: skip
#: Printed from rows that are known to two decimals only.
WITHIN_ROUNDING = {
    "zegeye2019_nonadherence_proportion_dl_subgroups_egger",
    "luo2018_vitd_wmd_dl_subgroups_egger",
    "li2018_transfusion_rd_dl",
}


def test_every_file_is_judged():
    assert {path.stem for path in PUBLISHED.glob("*.yaml")} == VARIANTS.keys() | MISPRINTED.keys()
    assert len(VARIANTS) == 28


@pytest.mark.parametrize(("name", "key"), VARIANTS.items())
def test_the_variant_is_found(name, key):
    found = redone(name)
    assert key in [trial.variant.key for trial in found.best]
    if name not in MISPRINTED:
        assert found.verdict is Verdict.REPRODUCED
        assert found.as_stated is not False


@pytest.mark.parametrize("name", sorted(VARIANTS.keys() - MISPRINTED.keys()))
def test_the_pool_is_had_without_the_rounding_of_the_rows_where_it_can_be(name):
    best = redone(name).best[0]
    assert best.gives_pool_exactly is (name not in WITHIN_ROUNDING)


@pytest.mark.parametrize(("name", "places"), MISPRINTED.items())
def test_what_cannot_be_had_is_not_claimed(name, places):
    found = redone(name)
    best = found.best[0]
    assert {check.item.place for check in best.misfits} == places
    headline = ("overall", "estimate") in places
    assert found.verdict is (Verdict.NOT if headline else Verdict.EXCEPT)


# Rows of counts are not rounded: no variant gives another digit in the last place but one.
@pytest.mark.parametrize(
    "name", ["sun2019_ponv_rr", "luo2017_complications_or_mh_fixed", "liao2018_falls_or_iv_fixed"]
)
def test_another_digit_is_not_reproduced(tmp_path, name):
    number = redone(name).best[0].checks[0].item.number.text
    other = f"{float(number) + 0.1:.2f}"
    changed = typed(tmp_path, (f"overall: {{estimate: {number}", f"overall: {{estimate: {other}"),
                    text=published(name))  # fmt: skip
    found = reproduce(changed)
    assert found.verdict is Verdict.NOT
    assert ("overall", "estimate") in [check.item.place for check in found.best[0].misfits]


def test_a_weight_of_another_digit_is_the_one_exception(tmp_path):
    changed = typed(tmp_path, ("weight: 36.7", "weight: 36.5"), text=published("sun2019_ponv_rr"))
    found = reproduce(changed)
    assert found.verdict is Verdict.EXCEPT
    (wrong,) = found.best[0].misfits
    assert wrong.item.place == ("weight", "0")
    assert wrong.match is Match.NO


def test_a_tie_may_be_rounded_either_way(tmp_path):
    # Odds ratio and Q of two equal studies: 1 and 0 exactly, so that 1.0 +- 0.5 units are ties.
    text = """\
format: 1
pooling: tie
about: Invented
invented: true
measure: mean difference
rows:
  - {study: A, first: {mean: 0.125, sd: 1, total: 10}, second: {mean: 0.0, sd: 1, total: 10}}
  - {study: B, first: {mean: 0.125, sd: 1, total: 10}, second: {mean: 0.0, sd: 1, total: 10}}
printed:
  overall: {estimate: 0.12}
"""
    for written in ("0.12", "0.13"):
        found = reproduce(typed(tmp_path, ("estimate: 0.12", f"estimate: {written}"), text=text))
        assert found.best[0].checks[0].match is Match.EXACT
