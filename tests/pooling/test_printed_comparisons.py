"""Every printed number of published comparisons, rebuilt from their own study rows."""

import numpy as np
import pytest
from scipy import stats

from evsyn import pool_estimates
from evsyn.effects.means import MEAN_EFFECTS, read_two_means
from evsyn.effects.two_arms import TWO_ARM_EFFECTS, read_two_arms
from evsyn.pooling.grid import AnalysisGrid
from evsyn.pooling.two_step import pool_two_step
from tests.pooling.printed_comparisons import PRINTED, texts


def value(pooled, name):
    z = abs(pooled.estimate_on_scale / pooled.se_on_scale)
    if name == "z":
        return z
    if name == "p_z":
        return 2 * stats.norm.sf(z)
    if name == "p_t":
        half = np.log(pooled.high / pooled.low) / 2
        t = stats.t.ppf(0.975, pooled.k - 1)
        return 2 * stats.t.sf(abs(pooled.estimate_on_scale) / (half / t), pooled.k - 1)
    return 100 * pooled.i2_from_q if name == "i2_from_q" else getattr(pooled, name)


def agrees(printed, found, text):
    return found < float(text[1:]) if text.startswith("<") else found == printed(text)


CHECKS = [
    (name, level, field)
    for name, record in PRINTED.items()
    for level, lines in {None: record.lines, **record.by_level}.items()
    for field in texts(lines)
]


@pytest.mark.parametrize(("name", "level", "field"), CHECKS)
def test_pooled_value_agrees_with_print(printed, name, level, field):
    record = PRINTED[name]
    text = texts(record.by_level[level] if level else record.lines)[field]
    assert agrees(printed, value(record.pooled(level), field), text)


@pytest.mark.parametrize("name", [name for name, record in PRINTED.items() if record.weights])
def test_weights_agree_with_print(printed, name):
    record = PRINTED[name]
    for share, text in zip(record.pooled().weights, record.weights.split(), strict=True):
        if text != "-":
            assert 100 * share == printed(text)


@pytest.mark.parametrize("name", [name for name, record in PRINTED.items() if record.studies])
def test_study_effects_agree_with_print(printed, name):
    record = PRINTED[name]
    contrast = record.pooled().contrast
    if contrast in MEAN_EFFECTS:
        effects = MEAN_EFFECTS[contrast](read_two_means(*record.columns))
    else:
        effects = TWO_ARM_EFFECTS[contrast](read_two_arms(*record.columns))
    half = stats.norm.ppf(0.975) * np.sqrt(effects.variance)
    lines = np.array([effects.estimate, effects.estimate - half, effects.estimate + half])
    rows = record.studies.split(";")
    for line, row in zip(effects.scale.back(lines).T, rows, strict=True):
        for found, text in zip(line, row.split(), strict=True):
            assert found == printed(text)


# Between groups, each pooled by itself: Q of their estimates, degrees of freedom, P.
BETWEEN_GROUPS = [
    ("cornea", "1.96", "3", "0.58"),
    ("nausea within 24 h, four trials counted twice", "0.45", "1", "0.50"),
]


@pytest.mark.parametrize(("name", "q", "df", "p"), BETWEEN_GROUPS)
def test_difference_between_groups_agrees_with_print(printed, name, q, df, p):
    record = PRINTED[name]
    groups = [record.pooled(level) for level in record.by_level]
    between = pool_estimates(
        [group.estimate_on_scale for group in groups],
        [group.se_on_scale**2 for group in groups],
        model="common",
    )
    assert between.q == printed(q)
    assert between.df == printed(df)
    assert between.p == printed(p)
    assert between.i2_from_q == 0


# Li H, et al. Oral tranexamic acid reduces blood loss in total-knee arthroplasty. Medicine
# 2018;97:e12924, doi:10.1097/MD.0000000000012924, Fig 6 and section 3.4.3: risk differences with
# limits to two decimals, and patients of both arms; random effects with Q about Mantel-Haenszel.
TRANSFUSION = "-0.1 -0.32 0.12; -0.21 -0.47 0.06; 0.0 -0.07 0.07; -0.15 -0.24 -0.06; "
TRANSFUSION += "-0.15 -0.26 -0.03"
ARMS = np.array([[20, 26, 27, 140, 94], [20, 20, 26, 140, 95]])
TRANSFUSION_PRINTED = {
    "estimate": "-0.108",
    "low": "-0.214",
    "high": "-0.001",
    "q": "14.87",
    "p": "0.005",
    "i2_from_q": "0.731",
}


def test_a_pool_of_risk_differences_lies_within_the_rounding_of_its_rows(printed):
    rows = np.array([row.split() for row in TRANSFUSION.split(";")], dtype=float)
    rng = np.random.default_rng(1)
    # Every printed value may stand for any within half a unit of its last decimal.
    drawn = rows.T[:, None, :] + rng.uniform(-0.005, 0.005, (3, 20_000, 5))
    estimate, low, high = drawn
    weights = ARMS.prod(axis=0) / ARMS.sum(axis=0)
    grid = AnalysisGrid(tuple(map(str, range(20_000))), np.ones((20_000, 5), dtype=bool))
    pooled = pool_two_step(
        estimate,
        ((high - low) / (2 * 1.96)) ** 2,
        grid,
        tau2_interval=False,
        q_about=estimate @ weights / weights.sum(),
    )
    assert set(pooled.df) == {4}
    for name, text in TRANSFUSION_PRINTED.items():
        found = getattr(pooled, name)
        assert found.min() < float(text) < found.max(), name


def test_a_printed_asymmetry_test_that_was_run_on_the_ratio_scale(printed):
    # The paper on remission of colitis prints an asymmetry t of 7.050; the regression of effect
    # over standard error on one over standard error gives 3.97 on log risk ratios, the scale on
    # which such a test is defined, and about 6.9 on the ratios themselves, where skew is built in.
    effects = TWO_ARM_EFFECTS["risk_ratio"](read_two_arms(*PRINTED["remission of colitis"].columns))
    se = np.sqrt(effects.variance)
    fit = stats.linregress(1 / se, effects.estimate / se)
    assert fit.intercept / fit.intercept_stderr == printed("3.97")
    ratio, half = np.exp(effects.estimate), stats.norm.ppf(0.975) * se
    unlogged = (np.exp(effects.estimate + half) - np.exp(effects.estimate - half)) / 3.92
    fit = stats.linregress(1 / unlogged, ratio / unlogged)
    assert fit.intercept / fit.intercept_stderr == pytest.approx(6.9, abs=0.05)
    assert fit.intercept / fit.intercept_stderr != printed("7.050")
