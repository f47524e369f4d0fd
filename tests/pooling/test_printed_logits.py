"""Two-step pooling of proportions on the logit scale, against print and by a second route."""

import numpy as np
import pytest

from evsyn import pool_proportions

# Jayasooriya S, et al. Thorax 2023;78:50-60, doi:10.1136/thoraxjnl-2021-217663, statistical
# appendix: presumed tuberculosis without tuberculosis, counts of the authors' data file. Q is the
# inverse-variance one on logits; the pooled value there is that of the exact model.
NOT_TUBERCULOSIS = [
    (
        [1184, 963, 125, 160, 107, 114, 1685, 455, 257],
        [1770, 1196, 150, 234, 135, 181, 2091, 1186, 395],
        "679.9414",
    ),
    ([411, 998, 510, 121], [428, 1041, 544, 160], "81.2135"),
]


@pytest.mark.parametrize(("events", "total", "q"), NOT_TUBERCULOSIS)
def test_q_of_logits_agrees_with_print(printed, events, total, q):
    assert pool_proportions(events, total).q == printed(q)


# Computed by an independent route, no printed source. The first set of counts is that of Tables
# 1 to 3 of a review of oesophageal stents, World J Gastroenterol 2016;22:7841; the other two are
# made-up counts that show a rare and a common outcome.
SECOND_ROUTE = {
    "stent overgrowth": (
        [2, 0, 5, 1, 13, 19],
        [42, 17, 32, 55, 48, 56],
        {
            "q": "21.448619",
            "tau2_dl": "0.802077",
            "tau2_reml": "1.281103",
            "dl": ("0.131391", "0.058491", "0.269172"),
            "reml": "0.120210",
            "hk": ("0.032362", "0.358237"),
            "hk_floor": ("0.032362", "0.358237"),
            "prediction": ("0.005397", "0.774794"),
            "floor_active": False,
        },
    ),
    "rare": (
        [0, 1, 0, 3, 2, 0, 5],
        [20, 45, 33, 120, 60, 15, 210],
        {
            "q": "0.367060",
            "tau2_dl": "0.000000",
            "tau2_reml": "0.000000",
            "dl": ("0.025062", "0.014449", "0.043129"),
            "reml": "0.025062",
            "hk": ("0.021157", "0.029666"),
            "hk_floor": ("0.012591", "0.049268"),
            "prediction": ("0.012591", "0.049268"),
            "floor_active": True,
        },
    ),
    "common": (
        [20, 44, 33, 115, 60],
        [20, 45, 33, 120, 60],
        {
            "q": "1.795796",
            "tau2_dl": "0.000000",
            "tau2_reml": "0.000000",
            "dl": ("0.969180", "0.938207", "0.984878"),
            "reml": "0.969180",
            "hk": ("0.940318", "0.984317"),
            "hk_floor": ("0.918104", "0.988790"),
            "prediction": ("0.918104", "0.988790"),
            "floor_active": True,
        },
    ),
}


@pytest.mark.parametrize("name", SECOND_ROUTE)
def test_dersimonian_laird_on_logits(printed, name):
    events, total, expected = SECOND_ROUTE[name]
    pooled = pool_proportions(events, total)
    assert pooled.q == printed(expected["q"])
    assert pooled.tau2 == printed(expected["tau2_dl"])
    for value, text in zip((pooled.estimate, pooled.low, pooled.high), expected["dl"], strict=True):
        assert value == printed(text)


@pytest.mark.parametrize("name", SECOND_ROUTE)
@pytest.mark.parametrize("interval", ["hartung_knapp", "hartung_knapp_floor"])
def test_restricted_ml_with_hartung_knapp_on_logits(printed, name, interval):
    events, total, expected = SECOND_ROUTE[name]
    pooled = pool_proportions(events, total, between="restricted_ml", interval=interval)
    limits = expected["hk" if interval == "hartung_knapp" else "hk_floor"]
    assert pooled.tau2 == printed(expected["tau2_reml"])
    assert pooled.estimate == printed(expected["reml"])
    assert (pooled.low, pooled.high) == tuple(map(printed, limits))
    assert (pooled.prediction_low, pooled.prediction_high) == tuple(
        map(printed, expected["prediction"])
    )
    assert pooled.floor_active is (interval == "hartung_knapp_floor" and expected["floor_active"])


def test_studies_all_at_zero_show_their_total(printed):
    # 0/20, 0/33, 0/15, 0/41: 0 of 109 with Clopper-Pearson limits, computed by a second route.
    pooled = pool_proportions([0, 0, 0, 0], [20, 33, 15, 41])
    assert pooled.status == "all_zero"
    assert pooled.low == 0
    assert pooled.high == printed("0.033277")


def test_a_printed_pooled_percentage_that_its_own_table_does_not_give():
    # World J Gastroenterol 2016;22:7841 prints migration 4.7 (2.5 to 7.7)%, I2 0.0. Its rows hold
    # 12 of 250, and one row of its table mixes counts with percentages of another denominator, so
    # what was pooled is not what is printed. Only I2 agrees.
    pooled = pool_proportions([3, 0, 1, 3, 1, 4], [42, 17, 32, 55, 48, 56])
    assert pooled.i2_from_q == 0
    printed_line = np.array([4.7, 2.5, 7.7])
    ours = 100 * np.array([pooled.estimate, pooled.low, pooled.high])
    assert np.all(np.abs(ours - printed_line) > 0.05)
