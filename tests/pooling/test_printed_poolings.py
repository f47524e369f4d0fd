"""Published poolings, each rebuilt from its own printed study rows.

Rows are as printed, parted by semicolons: mean, SD and n of two arms; events and n of two arms;
an estimate with its 95% limits, or with its standard error; or events and n of one arm. The
function named beside the rows turns them to effects.
"""

from dataclasses import dataclass, field

import numpy as np
import pytest
from scipy import stats

from evsyn import pool_estimates
from evsyn.pooling.functions import pool_estimates_grid
from evsyn.pooling.grid import by_level


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
    source: str
    effect: object
    rows: str
    lines: str
    options: dict = field(default_factory=dict)
    back: object = float
    weights: str = ""

    @property
    def printed(self):
        return dict(line.split() for line in self.lines.split(","))

    def effects(self):
        table = [row.split() for row in self.rows.split(";")]
        return self.effect(np.array(table, dtype=float).T)

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
        "Sun R, et al. Non-needle acupoint stimulation for prevention of nausea and "
        "vomiting after breast surgery. Medicine 2019;98:e14713 "
        "doi:10.1097/MD.0000000000014713 Fig 4F, p8",
        difference_of_means,
        "0.6 2 26 1.7 2.7 24; 0.93 2.034 29 1.57 2.775 30; 0.37 0.85 30 0.67 1.44 30",
        "estimate -0.47, low -0.97, high 0.03, q 1.25, df 2, p 0.54, i2_from_q 0, tau2 0.00",
        weights=("14.2 16.2 69.6"),
    ),
    "cobb_angle": Published(
        "Luo M, et al. Pedicle screw versus hybrid instrumentation in adolescent "
        "idiopathic scoliosis. Medicine 2017;96:e7337 doi:10.1097/MD.0000000000007337 Fig "
        "6, p6",
        difference_of_means,
        "22 11 29 33 11 29; 12 8 20 21 10 20; 15.06 9.04 17 20.25 8.56 16; 20 10 30 31 10 "
        "30; 14.1 4.8 25 19.6 6.9 54; 17 10.9 31 21 12.7 53; 16.4 7.8 35 21.4 9.3 35; 18.8"
        " 9.9 56 21.7 10.6 71; 16 6 21 20 5 21; 14 6 19 23 8 18; 17.8 8.1 25 22.2 9.9 25",
        "q 15.08, df 10, p 0.13, i2_from_q 34",
    ),
    "kyphosis": Published(
        "Luo M, et al. Pedicle screw versus hybrid instrumentation in adolescent "
        "idiopathic scoliosis. Medicine 2017;96:e7337 doi:10.1097/MD.0000000000007337 Fig "
        "7, p6",
        difference_of_means,
        "18 8 29 28 11 29; 19.35 8.45 17 22.42 10.47 17; 19 7 30 28 10 30; 14.5 6.5 25 "
        "20.8 5.7 54; 18.2 8.6 37 21.8 8.8 177; 16.1 11.8 56 20.4 9.1 71; 11.5 8.1 35 21.9"
        " 8.1 35; 19.3 4.4 25 20.3 8.6 25; 17.3 5.9 21 22.1 7.2 21",
        "estimate -5.79, low -7.88, high -3.70, q 20.24, df 8, p 0.009, i2_from_q 60, tau2 5.98",
        weights=("9.2 6.8 10.4 13.7 13.5 11.8 11.7 11.7 11.2"),
    ),
    "falls": Published(
        "Liao CD, et al. Protein supplementation combined with exercise in frail older "
        "adults. Nutrients 2018;10:1916 doi:10.3390/nu10121916 Fig 2, p13",
        log_odds_ratio,
        "42 46 16 18; 9 9 20 22; 19 23 10 23",
        "q 1.88, df 2, p 0.39, i2_from_q 0",
        back=np.exp,
    ),
    "alzheimer": Published(
        "Li K, et al. The prevalence of Alzheimer's disease in China: a systematic review "
        "and meta-analysis. Iran J Public Health 2018;47:1615-1626 "
        "https://pmc.ncbi.nlm.nih.gov/articles/PMC6294855/ Fig 3, p6",
        from_se,
        "0.04705374 0.00219981; 0.05360344 0.00301574; 0.02440191 0.00238649; 0.06898263 "
        "0.00564562; 0.04970326 0.00418564; 0.02729045 0.00359673",
        "estimate 1.05, low 1.03, high 1.06, q 116.83, df 5, i2_from_q 96, tau2 0.00",
        back=np.exp,
        weights=("17.3 17.0 17.2 15.4 16.4 16.7"),
    ),
    "non_adherence": Published(
        "Zegeye A, et al. Prevalence and determinants of anti-tuberculosis treatment "
        "non-adherence in Ethiopia. PLoS ONE 2019;14:e0210422 "
        "doi:10.1371/journal.pone.0210422 Table 1; Fig 2 (overall); Fig 4 (regions, "
        "weights); Egger p in text beside Fig 3",
        from_interval,
        "26 22.18 29.82; 24.5 19.28 29.72; 20.8 4.56 37.04; 24.7 19.57 29.83; 20 16.04 "
        "23.96; 10 6.48 13.52; 18 11.93 24.07; 11.5 7.08 15.92; 55.8 46.91 64.69; 8.4 5.1 "
        "11.7; 29.67 20.28 39.06; 12 4.22 19.78; 20.7 9.79 31.61",
        "estimate 21.29, low 15.75, high 26.83, i2_from_q 92.9",
        weights=("8.46 8.18 5.02 8.20 8.44 8.52 7.98 8.35 7.19 8.55 7.04 7.51 6.57"),
    ),
    "vitamin_d": Published(
        "Luo X, et al. Association between serum vitamin D levels and Parkinson's disease."
        " Front Neurol 2018;9:909 doi:10.3389/fneur.2018.00909 Fig 2, p4; Egger P in text",
        from_interval,
        "-8.7 -11.13 -6.27; -2 -3.72 -0.28; -3.3 -5.59 -1.01; -5.1 -9 -1.2; -7.3 -9.72 "
        "-4.88; -2.3 -3.53 -1.07; -3.4 -4.73 -2.07; -3.6 -6.51 -0.69; -2.2 -3.38 -1.02; "
        "-4.55 -4.62 -4.48; -3.4 -6.67 -0.13",
        "estimate -3.96, low -5.00, high -2.92, i2_from_q 82.6",
    ),
    "balance_training": Published(
        "Wu JQ, et al. Efficacy of balance training for hip fracture patients. J Orthop "
        "Surg Res 2019;14:83 doi:10.1186/s13018-019-1125-x Fig 4, p5",
        from_interval,
        "-0.42 -0.84 -0; 0.49 -0.26 1.25; 1 0.73 1.27; 0.75 0.19 1.32; 0.7 0.38 1.02; 0.34"
        " -0.13 0.81; 1.7 0.97 2.43; 0.68 0.23 1.13; 0.32 -0.04 0.68",
        "estimate 0.59, low 0.25, high 0.93, i2_from_q 81.9",
    ),
    "alopecia": Published(
        "Ji C, et al. HLA-DRB1 polymorphisms and alopecia areata disease risk. Medicine "
        "2018;97:e11790 doi:10.1097/MD.0000000000011790 Fig 3, p5 (both a D+L and an M-H "
        "line on one plot)",
        log_odds_ratio,
        "17 102 20 230; 11 132 1571 26501; 7 65 6 50; 5 33 9 112",
        "estimate 1.61, low 1.08, high 2.41, p 0.600, i2_from_q 0.0",
        back=np.exp,
        weights=("33.72 42.33 12.09 11.86"),
    ),
    "steroids": Published(
        "WHO REACT Working Group. Association between administration of systemic "
        "corticosteroids and mortality among critically ill patients with COVID-19. JAMA "
        "2020 doi:10.1001/jama.2020.17023 pooled results: abstract (0.66, 0.70) and a "
        "published re-tabulation with the drug subgroups (PMC8317986, table 2); "
        "deaths/patients and trial CIs: Fig 2 of the JAMA paper as re-tabulated in the "
        "public code supplement of Kronthaler & Held 2025 (arXiv 2510.13216)",
        log_odds_ratio,
        "2 7 2 12; 69 128 76 128; 95 324 283 683; 11 75 20 73; 6 15 2 14; 26 105 29 92; 13"
        " 24 13 23",
        "estimate 0.70, low 0.48, high 1.01",
        back=np.exp,
        options={"between": "paule_mandel", "interval": "hartung_knapp"},
    ),
    "lung_fibrosis": Published(
        "Blanc PD, et al. The occupational burden of nonmalignant respiratory diseases "
        "(ATS/ERS statement). Am J Respir Crit Care Med 2019;199:1312-1334 "
        "doi:10.1164/rccm.201904-0717ST any_paf.csv; log of 13 Dec 2018 (attributable "
        "cases and cases, rounded half up as the authors' log says; pooled lines of the "
        "authors' run logs); journal abstract prints the PAF 26 % (IPF) and 29 % (alveolar"
        " proteinosis); per-study PAF in table 4 of PMC6543721",
        raw_proportion,
        "7 40; 3 15; 27 102; 8 140; 50 100; 27 78",
        "estimate 0.26, low 0.10, high 0.41, q 91.63, df 5, i2_from_q 94.54, tau2 0.03",
    ),
    "ki67": Published(
        "Luo ZW, et al. Increased expression of Ki-67 is a poor prognostic marker for "
        "colorectal cancer patients. BMC Cancer 2019;19:123 doi:10.1186/s12885-019-5324-y "
        "Fig 4, p6; text p3",
        log_from_interval,
        "0.92 0.48 1.78; 2.32 1.48 3.64; 2.6 1.4 4.8; 0.98 0.96 1; 3.56 1.55 8.16; 1.39 "
        "1.03 1.89; 1.5 0.76 2.94; 1.02 0.53 1.98; 0.44 0.22 0.85; 2.09 0.28 15.74; 2.28 "
        "1.17 4.45; 5.61 2.38 13.2; 0.88 0.73 1.05",
        "estimate 1.43, low 1.12, high 1.83",
        back=np.exp,
    ),
}


CHECKS = [(name, field) for name, record in PUBLISHED.items() for field in record.printed]


@pytest.mark.parametrize(("name", "field"), CHECKS)
def test_pooled_value_agrees_with_print(printed, name, field):
    record = PUBLISHED[name]
    assert record.value(field) == printed(record.printed[field])


@pytest.mark.parametrize("name", [name for name, record in PUBLISHED.items() if record.weights])
def test_weights_agree_with_print(printed, name):
    record = PUBLISHED[name]
    texts = record.weights.split()
    for share, text in zip(record.pooled().weights, texts, strict=True):
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
