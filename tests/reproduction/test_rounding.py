"""How far results move within the rounding of the rows, against rows drawn at random."""

import numpy as np
import pytest

from evsyn.reproduction.compare import Match
from evsyn.reproduction.recompute import numbers_of_typings
from evsyn.reproduction.rounding import envelope_of
from evsyn.reproduction.together import fit_together
from evsyn.reproduction.variants import Variant
from evsyn.reproduction.verdict import reproduce
from tests.reproduction.builders import published, redone, typed

DRAWS = 2000
PLACES = [("overall", name) for name in ("estimate", "low", "high", "q", "i2", "tau2", "p_effect")]


@pytest.mark.parametrize("name", ["li2018_transfusion_rd_dl", "sun2019_nausea_vrs_md"])
def test_no_random_rows_within_rounding_leave_the_envelope(name):
    found = redone(name)
    rows, variant = found.rows, found.best[0].variant
    envelope = envelope_of(rows, variant, PLACES)
    rng = np.random.default_rng(5)
    shift = rng.uniform(-1, 1, (rows.columns.shape[0], DRAWS, rows.columns.shape[1]))
    drawn = numbers_of_typings(
        rows, variant, rows.columns[:, None, :] + shift * rows.halves[:, None, :]
    )
    for place in PLACES:
        low, high = envelope[place]
        assert low <= drawn[place].min() <= drawn[place].max() <= high, place
        assert low < high or place[1] in ("i2", "tau2")


def test_printed_ends_of_a_random_search():
    # Ends found by an independent search over the same rows lie inside, none is far from it:
    # pooled difference -0.113 to -0.105, Q 12.8 to 19.1.
    found = redone("li2018_transfusion_rd_dl")
    envelope = envelope_of(found.rows, found.best[0].variant, PLACES)
    low, high = envelope[("overall", "estimate")]
    assert -0.14 < low < -0.113
    assert -0.105 < high < -0.08
    low, high = envelope[("overall", "q")]
    assert low < 12.8
    assert high > 19.1


def test_counts_have_no_rounding():
    assert not redone("sun2019_ponv_rr").rows.rounded
    assert redone("sun2019_nausea_vrs_md").rows.rounded


@pytest.mark.parametrize(
    "name",
    [
        "li2018_transfusion_rd_dl",
        "luo2018_vitd_wmd_dl_subgroups_egger",
        "zegeye2019_nonadherence_proportion_dl_subgroups_egger",
    ],
)
def test_one_typing_gives_everything_at_once(name):
    assert redone(name).best[0].together is True


def test_variants_that_fit_only_number_by_number_are_not_named():
    # By themselves the numbers also lie within reach of Hartung and Knapp's interval; for no one
    # set of rows do they so together.
    found = redone("li2018_transfusion_rd_dl")
    other = Variant("random", "dersimonian_laird", "hartung_knapp", quantile="1.96")
    assert other not in [trial.variant for trial in found.best]
    assert not fit_together(found.rows, other, found.best[0].checks)


def test_a_printed_value_out_of_reach_is_not_excused_by_rounding(tmp_path):
    text = published("li2018_transfusion_rd_dl")
    found = reproduce(typed(tmp_path, ("estimate: -0.108", "estimate: -0.208"), text=text))
    assert found.verdict == "not reproducible"
    assert found.best[0].checks[0].match is Match.NO
