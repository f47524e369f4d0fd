"""The table of variants: what is tried, against the engine's own public functions."""

import numpy as np
import pytest

from evsyn import pool_comparisons, pool_estimates, pool_means, pool_proportions
from evsyn.reproduction.recompute import numbers_of
from evsyn.reproduction.rows import rows_of
from evsyn.reproduction.stated import stated_of
from evsyn.reproduction.variants import Variant, variants
from evsyn.reproduction.verdict import reproduce
from tests.reproduction.builders import published, redone, typed

ENDS = ("estimate", "low", "high", "q", "tau2", "i2_from_tau2")


def ends(pool):
    return [pool.estimate, pool.low, pool.high, pool.q, pool.tau2, 100 * pool.i2]


def found(name, **options):
    numbers = numbers_of(redone(name).rows, Variant(**options))
    return [numbers[("overall", end)][0] for end in ENDS]


@pytest.mark.parametrize("between", ["restricted_ml", "paule_mandel", "sidik_jonkman"])
@pytest.mark.parametrize("interval", ["ordinary", "hartung_knapp", "hartung_knapp_floor"])
def test_a_line_is_what_the_public_functions_give(between, interval):
    options = {"between": between, "interval": interval}
    name = "luo2017_complications_or_mh_fixed"
    pool = pool_comparisons(*redone(name).rows.columns, contrast="odds_ratio", **options)
    assert found(name, model="random", **options) == pytest.approx(ends(pool))
    name = "luo2017_kyphosis_md_iv_random"
    pool = pool_means(*redone(name).rows.columns, **options)
    assert found(name, model="random", **options) == pytest.approx(ends(pool))
    name = "blanc2019_ipf_any_paf_raw"
    pool = pool_proportions(*redone(name).rows.columns, **options)
    assert found(name, model="random", scale="logit", **options) == pytest.approx(ends(pool))


def test_a_ratio_with_limits_is_pooled_as_a_logarithm():
    name = "luo2019_disease_free_survival"
    estimate, low, high = np.log(redone(name).rows.columns)
    pool = pool_estimates(estimate, ((high - low) / 3.92) ** 2)
    given = found(name, model="random", between="dersimonian_laird", quantile="1.96")
    assert given[:3] == pytest.approx(np.exp([pool.estimate, pool.low, pool.high]))
    assert given[3:5] == pytest.approx([pool.q, pool.tau2])


def test_weights_sum_to_100_and_rows_without_events_weigh_nothing(tmp_path):
    line = "  - {study: Reed 2001, first: {events: 0, total: 9}, second: {events: 0, total: 8}}\n"
    rows = rows_of(typed(tmp_path, ("printed:\n", f"{line}printed:\n")).pooling)
    for variant in variants(rows):
        numbers = numbers_of(rows, variant)
        weights = [numbers[("weight", str(row))][0] for row in range(4)]
        assert sum(weights) == pytest.approx(100), variant.key
        assert weights[3] == 0


def test_half_in_every_study_by_hand():
    rows = redone("lu2018_recessive_or_mh_fixed_zero_cell").rows
    x_1, n_1, x_2, n_2 = rows.columns
    a, b, c, d = x_1 + 0.5, n_1 - x_1 + 0.5, x_2 + 0.5, n_2 - x_2 + 0.5
    pool = pool_estimates(np.log(a * d / (b * c)), 1 / a + 1 / b + 1 / c + 1 / d, model="common")
    given = found(
        "lu2018_recessive_or_mh_fixed_zero_cell", model="common", zero_cells="half_in_all"
    )
    assert given[0] == pytest.approx(np.exp(pool.estimate))


def test_options_that_would_do_nothing_are_not_listed():
    for name in ("sun2019_ponv_rr", "luo2017_complications_or_mh_fixed"):
        assert {one.zero_cells for one in variants(redone(name).rows)} == {""}
    keys = [one.key for one in variants(redone("lu2018_recessive_or_mh_fixed_zero_cell").rows)]
    assert len(keys) == len(set(keys))


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("M-H, fixed", {"model": "common", "weighting": "mantel_haenszel"}),
        ("IV, random", {"model": "random", "weighting": "inverse_variance"}),
        ("D+L line", {"model": "random", "between": "dersimonian_laird"}),
        ("Peto, fixed", {"model": "common", "weighting": "peto"}),
        ("random effects, REML, Hartung-Knapp",
         {"model": "random", "between": "restricted_ml", "interval": "hartung_knapp"}),
        ("fixed, or random if I2 > 50%", {}),
        ("pooled", {}),
    ],
)  # fmt: skip
def test_a_stated_method_is_read(text, words):
    assert dict(stated_of(text).words) == words


def test_a_stated_method_that_is_not_the_one_found_is_told(tmp_path):
    text = published("luo2017_complications_or_mh_fixed")
    wrong = reproduce(typed(tmp_path, ("M-H, fixed", "REML, random"), text=text))
    assert wrong.as_stated is False
    assert redone("luo2017_complications_or_mh_fixed").as_stated is True


def test_of_variants_that_agree_the_stated_one_comes_first(tmp_path):
    # Without spread between studies several variants agree; each paper gets its own named first.
    text = published("ji2018_drb1_16_or_dl")
    first = reproduce(typed(tmp_path, ("D+L line", "IV, fixed"), text=text)).best[0].variant
    assert first.model == "common"
    first = reproduce(typed(tmp_path, text=text)).best[0].variant
    assert (first.model, first.between) == ("random", "dersimonian_laird")
