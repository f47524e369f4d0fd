"""Published poolings with their own study rows, and the engine's options that pool them.

Rows and print are those of the files in ``tests/reproduction/published``, with their citations.
They are read as text, so that the number of printed decimals is known.
"""

from dataclasses import dataclass, field
from pathlib import Path

import numpy as np
import yaml

from evsyn import Pooled, pool_comparisons, pool_means, pool_proportions

FOLDER = Path(__file__).parent.parent / "reproduction" / "published"
#: Fields of the files, by their names in a record.
NAMES = {"i2": "i2_from_q", "p_heterogeneity": "p", "p_effect": "p_z"}
ARMS = ("events", "mean", "sd", "total", "estimate", "low", "high", "se")


@dataclass(frozen=True)
class Printed:
    file: str
    pool: object
    options: dict
    #: What else is printed, with why it does not stand in the file.
    more: dict = field(default_factory=dict)

    @property
    def read(self) -> dict:
        text = (FOLDER / f"{self.file}.yaml").read_text(encoding="utf-8")
        return yaml.load(text, yaml.BaseLoader)

    @property
    def columns(self) -> np.ndarray:
        return np.array([numbers_of(row) for row in self.read["rows"]], dtype=float).T

    @property
    def lines(self) -> dict:
        return texts(self.read["printed"]["overall"]) | self.more

    @property
    def by_level(self) -> dict:
        groups = self.read["printed"].get("groups", [])
        return {group["group"]: texts(group) for group in groups}

    @property
    def weights(self) -> list:
        return [row.get("weight") for row in self.read["rows"]]

    @property
    def studies(self) -> list:
        return [row["printed"] for row in self.read["rows"] if "printed" in row]

    def pooled(self, level: str | None = None) -> Pooled:
        chosen = [level in (None, row.get("group")) for row in self.read["rows"]]
        return self.pool(*self.columns[:, chosen], **self.options)


def numbers_of(row: dict) -> list:
    """Return the numbers of a row in the order of the public functions."""
    given = "estimate" in row
    arms = [row] if given else [row[arm] for arm in ("first", "second") if arm in row] or [row]
    return [arm[name] for arm in arms for name in ARMS if name in arm]


def texts(line: dict) -> dict:
    return {NAMES.get(name, name): text for name, text in line.items() if name != "group"}


# Random effects with Q, and so tau2, about the Mantel-Haenszel estimate; and that with half added
# to all four cells of a study with an empty one, inside the sums as well.
ABOUT_SUMS = {"q_about": "mantel_haenszel"}
ABOUT_SUMS_HALF = {"q_about": "mantel_haenszel", "zero_cells": "half_in_sums"}
SUMS_RR = {"model": "mantel_haenszel", "contrast": "risk_ratio"}
SUMS_OR = {"model": "mantel_haenszel", "contrast": "odds_ratio"}
HALF = {"zero_cells": "half_in_sums"}
COMMON_OR = {"model": "common", "contrast": "odds_ratio"}
PAULE = {"contrast": "odds_ratio", "between": "paule_mandel", "interval": "hartung_knapp"}
COUNTS, MEANS, RATES = pool_comparisons, pool_means, pool_proportions

PRINTED = {
    "nausea or vomiting": Printed("sun2019_ponv_rr", COUNTS, ABOUT_SUMS),
    "vomiting within 6 h": Printed("sun2019_vomiting_6h_rr_zero_cell", COUNTS, ABOUT_SUMS_HALF),
    "vomiting within 24 h": Printed("sun2019_vomiting_24h_rr", COUNTS, ABOUT_SUMS),
    "nausea within 24 h, four trials counted twice": Printed(
        "sun2019_nausea_24h_rr_subgroups_double_counted", COUNTS, ABOUT_SUMS
    ),
    "nausea score": Printed("sun2019_nausea_vrs_md", MEANS, {}),
    "response to radiotherapy": Printed("xin2018_response_rr_mh_fixed", COUNTS, SUMS_RR | HALF),
    "complications": Printed("luo2017_complications_or_mh_fixed", COUNTS, SUMS_OR),
    "curve": Printed("luo2017_cobb_md_iv_fixed", MEANS, {"model": "common"}),
    "kyphosis": Printed("luo2017_kyphosis_md_iv_random", MEANS, {}),
    "sepsis, one allele": Printed("lu2018_dominant_or_mh_fixed", COUNTS, SUMS_OR),
    "sepsis, two alleles": Printed(
        "lu2018_recessive_or_mh_fixed_zero_cell", COUNTS, SUMS_OR | HALF
    ),
    "cornea": Printed("huang2018_cornea_or_mh_subgroups", COUNTS, SUMS_OR),
    "falls": Printed("liao2018_falls_or_iv_fixed", COUNTS, COMMON_OR),
    "alopecia, Mantel-Haenszel line": Printed("ji2018_drb1_16_or_mh_fixed", COUNTS, SUMS_OR),
    "alopecia, random-effects line": Printed(
        "ji2018_drb1_16_or_dl", COUNTS, {"contrast": "odds_ratio"}
    ),
    "remission of colitis": Printed("peng2019_remission_rr_mh_fixed", COUNTS, SUMS_RR),
    "steroids, common effect": Printed(
        "react2020_mortality_or_iv_fixed",
        COUNTS,
        COMMON_OR,
        # From memory of the paper.
        {"p": "0.31", "i2_from_q": "15.6"},
    ),
    "steroids, Hartung-Knapp": Printed("react2020_mortality_or_hartung_knapp", COUNTS, PAULE),
    "lung fibrosis, any exposure": Printed("blanc2019_ipf_any_paf_raw", RATES, {"scale": "raw"}),
    "lung fibrosis, metal": Printed(
        "blanc2019_ipf_metal_paf_ft", RATES, {"scale": "freeman_tukey"}
    ),
    "alveolar proteinosis": Printed(
        "blanc2019_pap_burden_ft_k29", RATES, {"scale": "freeman_tukey"}
    ),
}
