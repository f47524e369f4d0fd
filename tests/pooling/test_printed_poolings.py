"""Published poolings, each rebuilt from its own printed study rows.

Rows are those of the files in ``tests/reproduction/published``, with their citations. The function
named beside a file turns its rows to effects by a formula of its own.
"""

from dataclasses import dataclass, field

import numpy as np
import pytest
from scipy import stats

from evsyn import pool_estimates
from evsyn.pooling.functions import pool_estimates_grid
from evsyn.pooling.grid import by_level
from tests.pooling.printed_comparisons import Printed


def difference_of_means(rows):
    m1, s1, n1, m2, s2, n2 = rows
    return m1 - m2, s1**2 / n1 + s2**2 / n2


def log_odds_ratio(rows):
    a, n1, c, n2 = rows
    b, d = n1 - a, n2 - c
    half = 0.5 * ((a * b * c * d) == 0)
    a, b, c, d = a + half, b + half, c + half, d + half
    return np.log(a * d / (b * c)), 1 / a + 1 / b + 1 / c + 1 / d


def from_interval(rows):
    estimate, low, high = rows
    return estimate, ((high - low) / (2 * 1.96)) ** 2


def log_from_interval(rows):
    return from_interval(np.log(rows))


def from_se(rows):
    estimate, se = rows
    return estimate, se**2


def raw_proportion(rows):
    x, n = rows
    return x / n, x / n * (1 - x / n) / n


@dataclass(frozen=True)
class Published:
    file: str
    effect: object
    #: What the rows in print give to the last decimal.
    lines: str
    options: dict = field(default_factory=dict)
    back: object = float
    weighed: bool = False

    @property
    def printed(self):
        return dict(line.split() for line in self.lines.split(","))

    @property
    def rows(self):
        return Printed(self.file, pool_estimates, self.options)

    def effects(self):
        return self.effect(self.rows.columns)

    def pooled(self):
        return pool_estimates(*self.effects(), **self.options)

    def value(self, name):
        pooled = self.pooled()
        if name in ("i2", "i2_from_q"):
            return 100 * getattr(pooled, name)
        value = getattr(pooled, name)
        return float(self.back(value)) if name in ("estimate", "low", "high") else value


PUBLISHED = {
    "nausea_score": Published(
        "sun2019_nausea_vrs_md",
        difference_of_means,
        "estimate -0.47, low -0.97, high 0.03, q 1.25, df 2, p 0.54, i2_from_q 0, tau2 0.00",
        weighed=True,
    ),
    "cobb_angle": Published(
        "luo2017_cobb_md_iv_fixed", difference_of_means, "q 15.08, df 10, p 0.13, i2_from_q 34"
    ),
    "kyphosis": Published(
        "luo2017_kyphosis_md_iv_random",
        difference_of_means,
        "estimate -5.79, low -7.88, high -3.70, q 20.24, df 8, p 0.009, i2_from_q 60, tau2 5.98",
        weighed=True,
    ),
    "falls": Published(
        "liao2018_falls_or_iv_fixed",
        log_odds_ratio,
        "q 1.88, df 2, p 0.39, i2_from_q 0",
        back=np.exp,
    ),
    "alzheimer": Published(
        "china_ad_rural_generic_iv_random",
        from_se,
        "estimate 1.05, low 1.03, high 1.06, q 116.83, df 5, i2_from_q 96, tau2 0.00",
        back=np.exp,
        weighed=True,
    ),
    "non_adherence": Published(
        "zegeye2019_nonadherence_proportion_dl_subgroups_egger",
        from_interval,
        "estimate 21.29, low 15.75, high 26.83, i2_from_q 92.9",
        weighed=True,
    ),
    "vitamin_d": Published(
        "luo2018_vitd_wmd_dl_subgroups_egger",
        from_interval,
        "estimate -3.96, low -5.00, high -2.92, i2_from_q 82.6",
    ),
    "balance_training": Published(
        "wu2019_function_smd_dl",
        from_interval,
        "estimate 0.59, low 0.25, high 0.93, i2_from_q 81.9",
    ),
    "alopecia": Published(
        "ji2018_drb1_16_or_dl",
        log_odds_ratio,
        "estimate 1.61, low 1.08, high 2.41, p 0.600, i2_from_q 0.0",
        back=np.exp,
        weighed=True,
    ),
    "steroids": Published(
        "react2020_mortality_or_hartung_knapp",
        log_odds_ratio,
        "estimate 0.70, low 0.48, high 1.01",
        back=np.exp,
        options={"between": "paule_mandel", "interval": "hartung_knapp"},
    ),
    "lung_fibrosis": Published(
        "blanc2019_ipf_any_paf_raw",
        raw_proportion,
        "estimate 0.26, low 0.10, high 0.41, q 91.63, df 5, i2_from_q 94.54, tau2 0.03",
    ),
    "ki67": Published(
        "luo2019_disease_free_survival",
        log_from_interval,
        "estimate 1.43, low 1.12, high 1.83",
        back=np.exp,
    ),
}


CHECKS = [(name, field) for name, record in PUBLISHED.items() for field in record.printed]


@pytest.mark.parametrize(("name", "field"), CHECKS)
def test_pooled_value_agrees_with_print(printed, name, field):
    record = PUBLISHED[name]
    assert record.value(field) == printed(record.printed[field])


@pytest.mark.parametrize("name", [name for name, record in PUBLISHED.items() if record.weighed])
def test_weights_agree_with_print(printed, name):
    record = PUBLISHED[name]
    for share, text in zip(record.pooled().weights, record.rows.weights, strict=True):
        assert 100 * share == printed(text)


# Lines of subgroups, each pooled with its own between-study variance.
REGIONS = ["SNNPR"] * 5 + ["Amhara"] + ["Tigray"] * 4 + ["Oromia"] * 3
ASSAYS = ["CBPA", "LC-MS", "LC-MS", "ELISA", "ELISA", "ECL", "ECL", "CMIA", "LC", "LC-MS/MS", "RIA"]
DRUGS = ["dexamethasone"] * 3 + ["hydrocortisone"] * 3 + ["methylprednisolone"]

SUBGROUPS = [
    ("non_adherence", REGIONS, "SNNPR", {"estimate": "23.61", "low": "21.05", "i2_from_q": "21.5"}),
    ("non_adherence", REGIONS, "Amhara", {"estimate": "10.00", "low": "6.48", "high": "13.52"}),
    ("non_adherence", REGIONS, "Tigray", {"low": "8.27", "high": "37.46", "i2_from_q": "97.0"}),
    ("non_adherence", REGIONS, "Oromia", {"estimate": "20.54", "low": "9.73", "high": "31.36"}),
    ("non_adherence", REGIONS, "Oromia", {"p": "0.017", "i2_from_q": "75.4"}),
    ("vitamin_d", ASSAYS, "LC-MS", {"estimate": "-2.47", "low": "-3.84", "high": "-1.09"}),
    ("vitamin_d", ASSAYS, "LC-MS", {"i2_from_q": "0.0"}),
    ("vitamin_d", ASSAYS, "ELISA", {"estimate": "-6.69", "low": "-8.74", "high": "-4.63"}),
    ("vitamin_d", ASSAYS, "ELISA", {"p": "0.347", "i2_from_q": "0.0"}),
    ("vitamin_d", ASSAYS, "ECL", {"estimate": "-2.82", "low": "-3.90", "high": "-1.74"}),
    ("steroids", DRUGS, "dexamethasone", {"estimate": "0.65", "low": "0.36", "high": "1.17"}),
    ("steroids", DRUGS, "hydrocortisone", {"estimate": "0.87", "low": "0.072", "high": "10.5"}),
]

# Printed from unrounded rows; the rows in print are rounded to two decimals, which moves these
# by up to one unit of the last digit.
SUBGROUPS_WITHIN_ROUNDING = [
    ("non_adherence", REGIONS, "SNNPR", {"high": "26.17", "p": "0.277"}),
    ("non_adherence", REGIONS, "Tigray", {"estimate": "22.87"}),
    ("vitamin_d", ASSAYS, "LC-MS", {"p": "0.373"}),
    ("vitamin_d", ASSAYS, "ECL", {"p": "0.233"}),
]


def subgroup_values(name, levels, level, fields):
    record = PUBLISHED[name]
    grid = by_level(levels)
    pooled = pool_estimates_grid(*record.effects(), grid, **record.options)[
        grid.labels.index(level)
    ]
    for field_name in fields:
        value = getattr(pooled, field_name)
        if field_name in ("estimate", "low", "high"):
            value = float(record.back(value))
        yield field_name, 100 * value if field_name == "i2_from_q" else value


@pytest.mark.parametrize(("name", "levels", "level", "fields"), SUBGROUPS)
def test_subgroup_line_agrees_with_print(printed, name, levels, level, fields):
    for field_name, value in subgroup_values(name, levels, level, fields):
        assert value == printed(fields[field_name]), field_name


@pytest.mark.parametrize(("name", "levels", "level", "fields"), SUBGROUPS_WITHIN_ROUNDING)
def test_subgroup_line_agrees_within_the_rounding_of_its_rows(printed, name, levels, level, fields):
    for field_name, value in subgroup_values(name, levels, level, fields):
        assert value == printed(fields[field_name], units=1), field_name


def test_a_share_of_variance_lies_within_the_rounding_of_its_two_rows():
    # The ECL line of the same figure prints I2 29.6; its two rows are rounded to two decimals, each
    # of which may stand for anything within half a unit.
    rows = np.array([[-2.3, -3.53, -1.07], [-3.4, -4.73, -2.07]])
    rng = np.random.default_rng(2)
    found = []
    for _ in range(300):
        drawn = (rows + rng.uniform(-0.005, 0.005, rows.shape)).T
        found.append(100 * pool_estimates(*from_interval(drawn)).i2_from_q)
    assert min(found) < 29.6 < max(found)
    assert max(found) - min(found) < 5


def test_printed_z_and_p_of_the_pooled_value(printed):
    # Same figures: Alzheimer, Z 7.21; balance training, P 0.001.
    pooled = PUBLISHED["alzheimer"].pooled()
    assert pooled.estimate_on_scale / pooled.se_on_scale == printed("7.21")
    pooled = PUBLISHED["balance_training"].pooled()
    z = pooled.estimate_on_scale / pooled.se_on_scale
    assert 2 * stats.norm.sf(z) == printed("0.001")


def test_a_printed_p_value_that_its_own_interval_contradicts():
    # The text prints P = 0.008 beside 1.43 (1.12 to 1.83); that interval implies about 0.005.
    pooled = PUBLISHED["ki67"].pooled()
    z = abs(pooled.estimate_on_scale / pooled.se_on_scale)
    assert 2 * stats.norm.sf(z) == pytest.approx(0.0047, abs=0.0003)
