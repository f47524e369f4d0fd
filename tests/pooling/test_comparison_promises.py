"""Every model of two arms keeps every promise in this table."""

import math
from dataclasses import fields

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from evsyn import Pooled, pool_comparisons, pool_estimates, pool_means, pool_proportions
from evsyn.effects.proportions import PROPORTION_EFFECTS
from evsyn.effects.two_arms import RATIOS
from evsyn.pooling.comparisons import MODELS, pool_comparisons_grid
from evsyn.pooling.functions import pool_proportions_grid
from evsyn.pooling.grid import AnalysisGrid, join, leave_one_out, overall

MEANS = ["mean_difference", "standardised_mean_difference"]
PAIRS = [
    {"model": model, "contrast": contrast}
    for model, contrasts in MODELS.items()
    for contrast in contrasts
]
PAIRS += [{"contrast": name, "q_about": "mantel_haenszel"} for name in ("risk_ratio", "odds_ratio")]
PAIRS += [
    {"model": "mantel_haenszel", "contrast": name, "zero_cells": "half_in_sums"}
    for name in ("risk_ratio", "odds_ratio")
]
PAIRS += [
    {"contrast": "odds_ratio", "between": "restricted_ml", "interval": "hartung_knapp_floor"},
    {"contrast": "risk_ratio", "between": "paule_mandel", "interval": "hartung_knapp"},
]


def named(options):
    return "-".join(options.values())


each_model = pytest.mark.parametrize("options", PAIRS, ids=map(named, PAIRS))
each_ratio = pytest.mark.parametrize(
    "options",
    [pair for pair in PAIRS if pair["contrast"] in RATIOS],
    ids=[named(pair) for pair in PAIRS if pair["contrast"] in RATIOS],
)
IN_BATCH = [pair for pair in PAIRS if pair.get("model") != "exact"]
few_examples = settings(max_examples=12, deadline=None)

ARM = st.integers(1, 60).flatmap(lambda n: st.tuples(st.integers(0, n), st.just(n)))
STUDIES = st.lists(st.tuples(ARM, ARM), min_size=2, max_size=7)
EMPTY = st.lists(
    st.tuples(st.integers(1, 99), st.integers(1, 99), st.booleans()), min_size=1, max_size=3
)
MEASURED = st.lists(
    st.tuples(*[st.floats(-20, 20), st.floats(0.1, 9), st.integers(2, 90)] * 2),
    min_size=2,
    max_size=7,
)

NUMBERS = [
    field.name
    for field in fields(Pooled)
    if field.type in (float, "float") and field.name != "level"
]


def columns(studies):
    return np.array([[*one, *other] for one, other in studies]).T


def assert_same(one, other, *, skip=()):
    assert (one.k, one.status, one.converged, one.notes) == (
        other.k,
        other.status,
        other.converged,
        other.notes,
    )
    # Searches in tau end within 1e-7 of each other; all else is closed form.
    tolerance = {"rel": 2e-5, "abs": 1e-6} if "normal" in one.model else {"rel": 1e-7, "abs": 1e-9}
    for name in NUMBERS:
        if name not in skip:
            expected = getattr(other, name)
            found = getattr(one, name)
            assert found == pytest.approx(expected, **tolerance, nan_ok=True), name


@each_model
@few_examples
@given(studies=STUDIES, data=st.data())
def test_order_of_studies_is_irrelevant(options, studies, data):
    shuffled = data.draw(st.permutations(range(len(studies))))
    table = columns(studies)
    one = pool_comparisons(*table, **options)
    other = pool_comparisons(*table[:, shuffled], **options)
    assert_same(one, other)
    if one.weights:
        assert np.array(one.weights)[shuffled] == pytest.approx(
            np.array(other.weights), rel=1e-4, abs=1e-9
        )
    assert {shuffled.index(place) for place in one.left_out} == set(other.left_out)
    assert {shuffled.index(place) for place in one.corrected} == set(other.corrected)


@each_model
@few_examples
@given(studies=STUDIES, extra=STUDIES)
def test_masked_equals_absent(options, studies, extra):
    table = columns(studies + extra)
    mask = np.arange(table.shape[1])[np.newaxis, :] < len(studies)
    (masked,) = pool_comparisons_grid(*table, AnalysisGrid(("some",), mask), **options)
    absent = pool_comparisons(*columns(studies), **options)
    assert_same(masked, absent)
    assert (masked.left_out, masked.corrected) == (absent.left_out, absent.corrected)
    if masked.weights:
        assert masked.weights[len(studies) :] == (0.0,) * len(extra)


# The exact model is fitted analysis by analysis, so it has no batch to go wrong.
@pytest.mark.parametrize("options", IN_BATCH, ids=map(named, IN_BATCH))
@few_examples
@given(studies=STUDIES)
def test_batch_equals_one_by_one(options, studies):
    table = columns(studies)
    k = table.shape[1]
    grid = join(overall(k), leave_one_out([str(i) for i in range(k)]))
    together = pool_comparisons_grid(*table, grid, **options)
    for mask, record in zip(grid.mask, together, strict=True):
        assert_same(record, pool_comparisons(*table[:, mask], **options))


@each_model
@few_examples
@given(studies=STUDIES)
def test_arms_swapped_mirror_the_effect(options, studies):
    a, n1, c, n2 = columns(studies)
    one = pool_comparisons(a, n1, c, n2, **options)
    other = pool_comparisons(c, n2, a, n1, **options)
    mirrored = ("estimate", "low", "high", "prediction_low", "prediction_high", "estimate_on_scale")
    assert_same(one, other, skip=mirrored)
    assert one.estimate_on_scale == pytest.approx(
        -other.estimate_on_scale, rel=1e-5, abs=1e-6, nan_ok=True
    )
    pairs = [
        ("estimate", "estimate"),
        ("low", "high"),
        ("high", "low"),
        ("prediction_low", "prediction_high"),
    ]
    for name, partner in pairs:
        found, expected = getattr(one, name), getattr(other, partner)
        if options["contrast"] in RATIOS:
            expected = 1 / expected if 1e-290 < expected < 1e290 else found
            if not 1e-290 < found < 1e290:
                continue
        else:
            expected = -expected
        assert found == pytest.approx(expected, rel=1e-3, abs=1e-9, nan_ok=True), name


@pytest.mark.parametrize(
    "options",
    [pair for pair in PAIRS if pair["contrast"] != "risk_ratio"],
    ids=[named(pair) for pair in PAIRS if pair["contrast"] != "risk_ratio"],
)
@few_examples
@given(studies=STUDIES)
def test_events_and_non_events_swapped_mirror_odds_ratios_and_differences(options, studies):
    a, n1, c, n2 = columns(studies)
    one = pool_comparisons(a, n1, c, n2, **options)
    other = pool_comparisons(n1 - a, n1, n2 - c, n2, **options)
    assert one.status == other.status
    for name in ("se_on_scale", "tau2", "q", "p"):
        expected = getattr(other, name)
        assert getattr(one, name) == pytest.approx(expected, rel=1e-4, abs=1e-6, nan_ok=True), name
    assert one.estimate_on_scale == pytest.approx(
        -other.estimate_on_scale, rel=1e-5, abs=1e-6, nan_ok=True
    )


@each_ratio
@few_examples
@given(studies=STUDIES, empty=EMPTY)
def test_studies_that_inform_nothing_change_nothing_in_ratios(options, studies, empty):
    without = pool_comparisons(*columns(studies), **options)
    added = [((n if full else 0, n), (m if full else 0, m)) for n, m, full in empty]
    pooled = pool_comparisons(*columns(studies + added), **options)
    assert_same(pooled, without)
    places = range(len(studies), len(studies) + len(added))
    assert set(pooled.left_out) == {*without.left_out, *places}
    if pooled.weights:
        assert all(pooled.weights[place] == 0 for place in places)


@each_model
@few_examples
@given(studies=STUDIES)
def test_there_and_back_and_nothing_out_of_range(options, studies):
    pooled = pool_comparisons(*columns(studies), **options)
    assert pooled.k + len(pooled.left_out) == len(studies)
    if pooled.status not in ("pooled", "one_study"):
        assert pooled.status in ("not_estimable", "not_converged")
        assert math.isnan(pooled.estimate)
        return
    assert pooled.low <= pooled.estimate <= pooled.high
    assert pooled.se_on_scale > 0
    assert sum(pooled.weights) == pytest.approx(1)
    if options["contrast"] in RATIOS:
        assert pooled.estimate == pytest.approx(math.exp(pooled.estimate_on_scale), rel=1e-12)
        assert pooled.low >= 0
    if not math.isnan(pooled.tau2):
        assert 0 <= pooled.tau2_low <= pooled.tau2_high or math.isnan(pooled.tau2_low)
        assert pooled.prediction_low <= pooled.estimate <= pooled.prediction_high
        assert 0 <= pooled.i2 < 1


@pytest.mark.parametrize("model", ["random", "common"])
@pytest.mark.parametrize("contrast", MEANS)
@few_examples
@given(studies=MEASURED, data=st.data())
def test_means_mirror_and_keep_no_order(model, contrast, studies, data):
    shuffled = data.draw(st.permutations(range(len(studies))))
    m1, s1, n1, m2, s2, n2 = table = np.array(studies).T
    one = pool_means(*table, contrast=contrast, model=model)
    assert_same(one, pool_means(*table[:, shuffled], contrast=contrast, model=model))
    other = pool_means(m2, s2, n2, m1, s1, n1, contrast=contrast, model=model)
    assert one.estimate == pytest.approx(-other.estimate, rel=1e-9, abs=1e-9)
    assert one.low == pytest.approx(-other.high, rel=1e-9, abs=1e-9)
    assert one.q == pytest.approx(other.q, rel=1e-9, abs=1e-9)


@pytest.mark.parametrize("contrast", MEANS)
@few_examples
@given(studies=MEASURED, factor=st.floats(0.1, 10))
def test_a_change_of_unit_changes_mean_differences_by_it_and_standardised_ones_not(
    contrast, studies, factor
):
    m1, s1, n1, m2, s2, n2 = np.array(studies).T
    one = pool_means(m1, s1, n1, m2, s2, n2, contrast=contrast)
    other = pool_means(
        factor * m1, factor * s1, n1, factor * m2, factor * s2, n2, contrast=contrast
    )
    scale = factor if contrast == "mean_difference" else 1
    assert other.estimate == pytest.approx(scale * one.estimate, rel=1e-6, abs=1e-9)
    assert other.tau2 == pytest.approx(scale**2 * one.tau2, rel=1e-6, abs=1e-9)


@few_examples
@given(studies=MEASURED)
def test_a_common_effect_is_the_random_one_where_no_spread_is_found(studies):
    y, v = np.array([(row[0], row[1]) for row in studies]).T
    common, random = pool_estimates(y, v, model="common"), pool_estimates(y, v)
    assert (common.q, common.p, common.i2_from_q) == (random.q, random.p, random.i2_from_q)
    if random.tau2 == 0:
        assert (common.estimate, common.low) == (random.estimate, random.low)
    assert common.se_on_scale <= random.se_on_scale


@pytest.mark.parametrize("scale", [name for name in PROPORTION_EFFECTS if name != "raw"])
@few_examples
@given(studies=st.lists(ARM, min_size=2, max_size=8), extra=st.lists(ARM, min_size=1, max_size=4))
def test_every_scale_of_proportions_keeps_the_promises(scale, studies, extra):
    x, n = np.array(studies + extra).T
    mask = np.arange(x.size)[np.newaxis, :] < len(studies)
    (masked,) = pool_proportions_grid(x, n, AnalysisGrid(("some",), mask), scale=scale)
    pooled = pool_proportions(*np.array(studies).T, scale=scale)
    assert_same(masked, pooled)
    assert 0 <= pooled.low <= pooled.estimate <= pooled.high <= 1
    x, n = np.array(studies).T
    other = pool_proportions(n - x, n, scale=scale)
    assert pooled.estimate == pytest.approx(1 - other.estimate, abs=1e-9)
    assert pooled.low == pytest.approx(1 - other.high, abs=1e-9)
    backwards = pool_proportions(x[::-1], n[::-1], scale=scale)
    assert backwards.estimate == pytest.approx(pooled.estimate, abs=1e-12)
