"""Published poolings with their own printed study rows, and what is printed of the pool.

Rows are as printed, parted by semicolons: events and n of two arms; mean, SD and n of two arms; or
events and n of one arm. ``lines`` holds printed texts, so that the number of decimals is known.
``studies`` holds printed study effects; ``weights`` printed percentage weights, ``-`` where none.
"""

from dataclasses import dataclass, field

import numpy as np

from evsyn import Pooled, pool_comparisons, pool_means, pool_proportions


@dataclass(frozen=True)
class Printed:
    source: str
    pool: object
    options: dict
    rows: str
    lines: str
    weights: str = ""
    studies: str = ""
    levels: tuple = ()
    by_level: dict = field(default_factory=dict)

    @property
    def columns(self):
        return np.array([row.split() for row in self.rows.split(";")], dtype=float).T

    def pooled(self, level: str | None = None) -> Pooled:
        chosen = np.array([level in (None, name) for name in self.levels or (None,)])
        columns = self.columns[:, chosen] if self.levels else self.columns
        return self.pool(*columns, **self.options)


def texts(lines: str) -> dict:
    return dict(line.split() for line in lines.split(","))


SUN = (
    "Sun R, et al. Non-needle acupoint stimulation for prevention of nausea and vomiting after "
    "breast surgery. Medicine 2019;98:e14713 doi:10.1097/MD.0000000000014713 "
)
LUO = (
    "Luo M, et al. Pedicle screw versus hybrid instrumentation in adolescent idiopathic scoliosis. "
    "Medicine 2017;96:e7337 doi:10.1097/MD.0000000000007337 "
)
LU = (
    "Lu HX, et al. LBP rs2232618 polymorphism contributes to risk of sepsis after trauma. World J "
    "Emerg Surg 2018;13:52 doi:10.1186/s13017-018-0214-1 "
)
JI = (
    "Ji C, et al. HLA-DRB1 polymorphisms and alopecia areata disease risk. Medicine 2018;97:e11790 "
    "doi:10.1097/MD.0000000000011790 Fig 3, p5: both lines stand on one plot"
)
JI_ROWS = "17 102 20 230; 11 132 1571 26501; 7 65 6 50; 5 33 9 112"
JI_STUDIES = "2.10 1.05 4.20; 1.44 0.78 2.68; 0.89 0.28 2.82; 2.04 0.63 6.59"
STEROIDS = (
    "WHO REACT Working Group. JAMA 2020 doi:10.1001/jama.2020.17023: pooled results of the "
    "abstract, drugs from a re-tabulation (PMC8317986, table 2); deaths and patients of Fig 2 at "
    "second hand (Kronthaler & Held 2025, arXiv 2510.13216)"
)
STEROIDS_ROWS = (
    "2 7 2 12; 69 128 76 128; 95 324 283 683; 11 75 20 73; 6 15 2 14; 26 105 29 92; 13 24 13 23"
)
STEROIDS_DRUGS = (
    *("dexamethasone",) * 3,
    *("hydrocortisone",) * 3,
    "methylprednisolone",
)
STEROIDS_STUDIES = (
    "2.00 0.21 18.69; 0.80 0.49 1.31; 0.59 0.44 0.78; 0.46 0.20 1.04; 4.00 0.65 24.66; "
    "0.71 0.38 1.33; 0.91 0.29 2.87"
)
BLANC = (
    "Blanc PD, et al. Am J Respir Crit Care Med 2019;199:1312-1334 doi:10.1164/rccm.201904-0717ST: "
    "counts and pooled lines of the authors' public data and run logs; "
)

# Random effects with Q, and so tau2, about the Mantel-Haenszel estimate; and that with half added
# to all four cells of a study with an empty one, inside the sums as well.
ABOUT_SUMS = {"q_about": "mantel_haenszel"}
ABOUT_SUMS_HALF = {"q_about": "mantel_haenszel", "zero_cells": "half_in_sums"}
SUMS_RR = {"model": "mantel_haenszel", "contrast": "risk_ratio"}
SUMS_OR = {"model": "mantel_haenszel", "contrast": "odds_ratio"}
HALF = {"zero_cells": "half_in_sums"}
COMMON_OR = {"model": "common", "contrast": "odds_ratio"}

PRINTED = {
    "nausea or vomiting": Printed(
        SUN + "Fig 3, p7",
        pool_comparisons,
        ABOUT_SUMS,
        "19 53 31 49; 10 29 20 30; 2 30 5 30; 11 33 22 33; 9 30 10 30; 4 34 7 34; 1 30 5 30",
        "estimate 0.56, low 0.43, high 0.72, q 2.93, df 6, p 0.82, i2_from_q 0, tau2 0.00, z 4.52, "
        "p_z <0.00001",
        weights="36.7 20.4 2.6 22.1 11.6 5.0 1.5",
        studies="0.57 0.37 0.86; 0.52 0.29 0.91; 0.40 0.08 1.90; 0.50 0.29 0.86; 0.90 0.43 1.90; "
        "0.57 0.18 1.77; 0.20 0.02 1.61",
    ),
    "vomiting within 6 h": Printed(
        SUN + "Fig 5A, p9 (one empty cell)",
        pool_comparisons,
        ABOUT_SUMS_HALF,
        "2 29 8 30; 6 33 9 33; 0 30 2 30",
        "estimate 0.48, low 0.23, high 1.02, q 1.57, df 2, p 0.46, i2_from_q 0, tau2 0.00, z 1.91, "
        "p_z 0.06",
        weights="26.3 67.4 6.3",
        studies="0.26 0.06 1.12; 0.67 0.27 1.66; 0.20 0.01 4.00",
    ),
    "vomiting within 24 h": Printed(
        SUN + "Fig 5C, p9",
        pool_comparisons,
        ABOUT_SUMS,
        "5 26 11 24; 8 29 12 30; 6 33 11 33; 6 47 12 39; 15 58 14 52; 12 53 21 53; 1 30 6 30",
        "estimate 0.60, low 0.44, high 0.81, q 5.21, df 6, p 0.52, i2_from_q 0, tau2 0.00, z 3.37, "
        "p_z 0.0007",
        weights="10.9 16.4 11.7 11.4 22.7 24.8 2.1",
    ),
    "nausea within 24 h, four trials counted twice": Printed(
        SUN + "Fig 4C, p8: two overlapping groups of trials and their total, as printed",
        pool_comparisons,
        ABOUT_SUMS,
        "6 29 15 30; 11 33 22 33; 20 57 15 51; 17 53 28 53; 8 30 17 30; 6 29 15 30; 11 33 22 33; "
        "17 53 28 53; 8 30 17 30",
        "estimate 0.57, low 0.46, high 0.71, q 9.31, df 8, p 0.32, i2_from_q 14, tau2 0.01, "
        "z 5.22, p_z <0.00001",
        weights="6.4 12.7 12.2 16.1 8.7 6.4 12.7 16.1 8.7",
        levels=("all",) * 5 + ("electrical",) * 4,
        by_level={
            "all": "estimate 0.61, low 0.42, high 0.88, q 7.64, df 4, p 0.11, i2_from_q 48, "
            "tau2 0.08, z 2.66, p_z 0.008",
            "electrical": "estimate 0.52, low 0.39, high 0.70, q 0.85, df 3, p 0.84, i2_from_q 0, "
            "tau2 0.00, z 4.41, p_z <0.0001",
        },
    ),
    "nausea score": Printed(
        SUN + "Fig 4F, p8",
        pool_means,
        {},
        "0.6 2 26 1.7 2.7 24; 0.93 2.034 29 1.57 2.775 30; 0.37 0.85 30 0.67 1.44 30",
        "estimate -0.47, low -0.97, high 0.03, q 1.25, df 2, p 0.54, i2_from_q 0, tau2 0.00, "
        "z 1.84, p_z 0.07",
        weights="14.2 16.2 69.6",
        studies="-1.10 -2.43 0.23; -0.64 -1.88 0.60; -0.30 -0.90 0.30",
    ),
    "response to radiotherapy": Printed(
        "Xin Y, et al. Whole-brain radiotherapy plus temozolomide for brain metastases from NSCLC. "
        "Cancer Medicine 2018;7:981-990 doi:10.1002/cam4.1306 Fig 4, p6 (one full arm, 19 of 19)",
        pool_comparisons,
        SUMS_RR | HALF,
        "16 18 10 18; 21 26 16 25; 34 39 24 39; 5 22 2 13; 19 19 19 21; 19 25 11 25; 31 43 21 41; "
        "15 30 12 30; 42 52 33 50; 20 30 12 26; 45 129 22 109",
        "estimate 1.40, low 1.24, high 1.57, q 11.62, df 10, p 0.31, i2_from_q 14, z 5.51, "
        "p_z <0.00001",
        weights="5.4 8.8 12.9 1.3 10.0 5.9 11.5 6.4 18.1 6.9 12.8",
    ),
    "complications": Printed(
        LUO + "Fig 4, p4",
        pool_comparisons,
        SUMS_OR,
        "9 24 6 23; 7 295 24 423; 1 22 3 26; 3 37 4 177; 1 35 2 35; 17 56 29 71; 1 21 1 21; "
        "2 9 17 73; 19 540 11 87; 9 29 10 27",
        "estimate 0.61, low 0.42, high 0.87, q 14.61, df 9, p 0.10, i2_from_q 38, z 2.70, "
        "p_z 0.007",
        weights="5.0 25.3 3.5 1.7 2.6 23.4 - 3.8 24.0 9.4",
    ),
    "curve": Printed(
        LUO + "Fig 6, p6",
        pool_means,
        {"model": "common"},
        "22 11 29 33 11 29; 12 8 20 21 10 20; 15.06 9.04 17 20.25 8.56 16; 20 10 30 31 10 30; "
        "14.1 4.8 25 19.6 6.9 54; 17 10.9 31 21 12.7 53; 16.4 7.8 35 21.4 9.3 35; 18.8 9.9 56 "
        "21.7 10.6 71; 16 6 21 20 5 21; 14 6 19 23 8 18; 17.8 8.1 25 22.2 9.9 25",
        "estimate -5.80, low -7.06, high -4.54, q 15.08, df 10, p 0.13, i2_from_q 34, z 9.01, "
        "p_z <0.00001",
        weights="5.0 5.0 4.4 6.2 22.9 6.0 9.8 12.4 14.2 7.6 6.3",
    ),
    "kyphosis": Printed(
        LUO + "Fig 7, p6",
        pool_means,
        {},
        "18 8 29 28 11 29; 19.35 8.45 17 22.42 10.47 17; 19 7 30 28 10 30; 14.5 6.5 25 20.8 5.7 54;"
        " 18.2 8.6 37 21.8 8.8 177; 16.1 11.8 56 20.4 9.1 71; 11.5 8.1 35 21.9 8.1 35; 19.3 4.4 25 "
        "20.3 8.6 25; 17.3 5.9 21 22.1 7.2 21",
        "estimate -5.79, low -7.88, high -3.70, q 20.24, df 8, p 0.009, i2_from_q 60, tau2 5.98, "
        "z 5.43, p_z <0.00001",
        weights="9.2 6.8 10.4 13.7 13.5 11.8 11.7 11.7 11.2",
    ),
    "sepsis, one allele": Printed(
        LU + "Fig 1, p5",
        pool_comparisons,
        SUMS_OR,
        "47 204 38 250; 29 114 97 529; 59 432 71 864; 31 167 26 278",
        "estimate 1.75, low 1.40, high 2.19, q 1.04, df 3, p 0.79, i2_from_q 0, z 4.85, "
        "p_z <0.00001",
        weights="24.2 23.6 37.6 14.6",
    ),
    "sepsis, two alleles": Printed(
        LU + "Fig 2, p6 (one empty cell)",
        pool_comparisons,
        SUMS_OR | HALF,
        "5 204 0 250; 5 432 2 864; 2 167 1 278",
        "estimate 6.08, low 1.82, high 20.37, q 0.59, df 2, p 0.74, i2_from_q 0, z 2.93, p_z 0.003",
        weights="17.5 52.8 29.7",
        studies="13.81 0.76 251.28; 5.05 0.98 26.12; 3.36 0.30 37.32",
    ),
    "cornea": Printed(
        "Huang ST, et al. Safety of anti-VEGF administration in the ocular anterior segment. "
        "Medicine 2018;97:e11960 doi:10.1097/MD.0000000000011960 Fig 4, p7",
        pool_comparisons,
        SUMS_OR,
        "1 36 4 36; 1 12 1 10; 15 33 15 33; 1 33 3 33; 1 14 2 14; 4 29 4 29",
        "estimate 0.71, low 0.37, high 1.37, q 2.27, df 5, p 0.81, i2_from_q 0, z 1.02, p_z 0.31",
        weights="18.3 4.7 38.4 13.7 8.7 16.2",
        levels=("epitheliopathy", "defect", "defect", "ulcer", "oedema", "oedema"),
        by_level={
            "epitheliopathy": "estimate 0.23, low 0.02, high 2.15, z 1.29, p_z 0.20",
            "defect": "estimate 0.98, low 0.39, high 2.46, q 0.02, df 1, p 0.90, i2_from_q 0, "
            "z 0.04, p_z 0.97",
            "ulcer": "estimate 0.31, low 0.03, high 3.17, z 0.98, p_z 0.33",
            "oedema": "estimate 0.81, low 0.23, high 2.89, q 0.27, df 1, p 0.61, i2_from_q 0, "
            "z 0.32, p_z 0.75",
        },
    ),
    "falls": Printed(
        "Liao CD, et al. Protein supplementation combined with exercise in frail older adults. "
        "Nutrients 2018;10:1916 doi:10.3390/nu10121916 Fig 2, p13 (one full arm, 9 of 9)",
        pool_comparisons,
        COMMON_OR,
        "42 46 16 18; 9 9 20 22; 19 23 10 23",
        "estimate 3.36, low 1.21, high 9.34, q 1.88, df 2, p 0.39, i2_from_q 0, z 2.32, p_z 0.02",
        weights="32.6 10.7 56.8",
        studies="1.31 0.22 7.88; 2.32 0.10 53.12; 6.17 1.59 23.99",
    ),
    "alopecia, Mantel-Haenszel line": Printed(
        JI,
        pool_comparisons,
        SUMS_OR,
        JI_ROWS,
        "estimate 1.60, low 1.07, high 2.39",
        studies=JI_STUDIES,
    ),
    "alopecia, random-effects line": Printed(
        JI,
        pool_comparisons,
        {"contrast": "odds_ratio"},
        JI_ROWS,
        "estimate 1.61, low 1.08, high 2.41, p 0.600, i2_from_q 0.0",
        weights="33.72 42.33 12.09 11.86",
        studies=JI_STUDIES,
    ),
    "remission of colitis": Printed(
        "Peng L, et al. Probiotics combined with aminosalicylic acid affiliates remission of "
        "ulcerative colitis. Bioscience Reports 2019;39:BSR20180943 doi:10.1042/BSR20180943 "
        "Table 1 and Fig 2",
        pool_comparisons,
        SUMS_RR,
        "41 65 46 64; 15 25 8 25; 11 30 9 30; 19 35 14 35; 21 50 21 50; 19 31 12 31; 34 41 23 40; "
        "17 30 12 28; 13 25 9 28; 15 38 10 38; 23 33 16 30; 25 35 19 35; 16 31 10 31; 12 18 7 18; "
        "16 26 8 22; 26 47 18 47; 9 20 5 14; 8 34 4 34; 24 50 19 50; 16 31 11 31; 35 63 24 63; "
        "4 26 2 26; 28 40 19 40; 28 54 17 54; 24 40 14 40; 21 32 13 32; 15 30 6 26",
        "estimate 1.40, low 1.27, high 1.53, p 0.659, i2_from_q 0.0",
        weights="12.22 2.11 2.37 3.69 5.54 3.16 6.14 3.27 2.24 2.64 4.42 5.01 2.64 1.85 2.29 4.75 "
        "1.55 1.05 5.01 2.90 6.33 0.53 5.01 4.48 3.69 3.43 1.69",
    ),
    "steroids, common effect": Printed(
        STEROIDS,
        pool_comparisons,
        COMMON_OR,
        STEROIDS_ROWS,
        # The P value of 0.31 and I2 of 15.6% are from memory of the paper.
        "estimate 0.66, low 0.53, high 0.82, i2_from_q 15.6, p 0.31",
        studies=STEROIDS_STUDIES,
        levels=STEROIDS_DRUGS,
        by_level={
            "dexamethasone": "estimate 0.64, low 0.50, high 0.82",
            "hydrocortisone": "estimate 0.69, low 0.43, high 1.12, p_z 0.13",
            "methylprednisolone": "estimate 0.91, low 0.29, high 2.87, p_z 0.87",
        },
    ),
    "steroids, Hartung-Knapp": Printed(
        STEROIDS,
        pool_comparisons,
        {"contrast": "odds_ratio", "between": "paule_mandel", "interval": "hartung_knapp"},
        STEROIDS_ROWS,
        "estimate 0.70, low 0.48, high 1.01, p_t 0.05",
        levels=STEROIDS_DRUGS,
        by_level={
            "dexamethasone": "estimate 0.65, low 0.36, high 1.17",
            "hydrocortisone": "estimate 0.87, low 0.072, high 10.5",
        },
    ),
    "lung fibrosis, any exposure": Printed(
        BLANC + "log of 13 Dec 2018, untransformed proportions",
        pool_proportions,
        {"scale": "raw"},
        "7 40; 3 15; 27 102; 8 140; 50 100; 27 78",
        "estimate 0.26, low 0.10, high 0.41, q 91.63, df 5, i2_from_q 94.54, tau2 0.03",
    ),
    "lung fibrosis, metal": Printed(
        BLANC + "log of 13 Dec 2018, double arcsine",
        pool_proportions,
        {"scale": "freeman_tukey"},
        "5 40; 22 218; 1 22; 13 248; 11 102; 0 140; 6 95; 6 65; 17 78",
        "estimate 0.08, low 0.04, high 0.13, q 52.82, df 8, i2_from_q 84.85, tau2 0.05",
    ),
    "alveolar proteinosis": Printed(
        BLANC + "log of 21 Oct 2018, double arcsine (one study as 4 of 12, as in that log)",
        pool_proportions,
        {"scale": "freeman_tukey"},
        "69 139; 13 37; 2 13; 0 23; 3 34; 10 68; 12 24; 4 12; 16 41; 52 199; 2 11; 20 241; 0 38; "
        "36 70; 9 25; 26 73; 20 30; 4 17; 40 68; 2 10; 8 31; 17 45; 2 11; 5 35; 4 20; 50 101; "
        "5 17; 18 37; 34 71",
        "estimate 0.29, low 0.21, high 0.37, q 283.12, df 28, i2_from_q 90.11, tau2 0.18",
    ),
}
