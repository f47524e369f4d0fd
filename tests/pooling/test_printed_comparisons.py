"""Every printed number of published comparisons, rebuilt from their own study rows."""

import numpy as np
import pytest
from scipy import stats

from evsyn import pool_estimates
from evsyn.effects.means import MEAN_EFFECTS, read_two_means
from evsyn.effects.two_arms import TWO_ARM_EFFECTS, read_two_arms
from tests.pooling.printed_comparisons import PRINTED


def value(pooled, name):
    z = abs(pooled.estimate_on_scale / pooled.se_on_scale)
    if name == "z":
        return z
    if name == "p_z" and pooled.interval == "ordinary":
        return 2 * stats.norm.sf(z)
    if name == "p_z":
        half = np.log(pooled.high / pooled.low) / 2
        t = stats.t.ppf(0.975, pooled.k - 1)
        return 2 * stats.t.sf(abs(pooled.estimate_on_scale) / (half / t), pooled.k - 1)
    return 100 * pooled.i2_from_q if name == "i2_from_q" else getattr(pooled, name)


def agrees(printed, found, text):
    return found < float(text[1:]) if text.startswith("<") else found == printed(text)


CHECKS = [
    (name, level, field)
    for name, record in PRINTED.items()
    for level, line in {None: record.lines, **record.by_level}.items()
    for field in line
]


@pytest.mark.parametrize(("name", "level", "field"), CHECKS)
def test_pooled_value_agrees_with_print(printed, name, level, field):
    record = PRINTED[name]
    text = (record.by_level[level] if level else record.lines)[field]
    assert agrees(printed, value(record.pooled(level), field), text)


@pytest.mark.parametrize("name", [name for name, record in PRINTED.items() if any(record.weights)])
def test_weights_agree_with_print(printed, name):
    record = PRINTED[name]
    for share, text in zip(record.pooled().weights, record.weights, strict=True):
        if text is not None:
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
    for line, row in zip(effects.scale.back(lines).T, record.studies, strict=True):
        for found, end in zip(line, ("estimate", "low", "high"), strict=True):
            assert found == printed(row[end])


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
