"""The unit's own count: what none leaves open, and what is not known."""

import pytest

from evsyn.audit.counts import UnitTally
from evsyn.cells.cell import Question
from evsyn.claims.unit_levels import weigh_own_levels
from evsyn.claims.unit_rate import weigh_own_rate
from evsyn.claims.verdict import ClaimVerdict
from evsyn.extraction.claim_value import amount
from evsyn.extraction.claims import Relation


def tally(events, total, unknown=0, window="30_days"):
    return UnitTally(
        question=Question("perforation"),
        events=events,
        total=total,
        unknown=unknown,
        basis="attempted",
        window=window,
        is_split=False,
        is_partial=False,
        sources=(),
    )


@pytest.mark.parametrize(
    ("total", "limit"),
    # Cases with none of them that leave a rate just below these open, one-sided 95%:
    # 1 - 0.05^(1/n), Eypasch et al, BMJ 1995;311:619; 0 of 60 leaves 4.9%, 0 of 20 13.9%.
    [(60, 0.049), (20, 0.139)],
)
def test_none_is_borne_out_as_a_count_and_leaves_rates_open(total, limit):
    found = weigh_own_rate(tally(0, total), Relation.NONE, None)
    assert found.verdict is ClaimVerdict.BEYOND
    assert found.one_sided == pytest.approx(limit, abs=0.0005)
    assert weigh_own_rate(tally(1, total), Relation.NONE, None).verdict is (
        ClaimVerdict.CONTRADICTED
    )


def test_a_bound_must_hold_whichever_way_the_unknown_went():
    ten = amount("10%")
    assert weigh_own_rate(tally(0, 60), Relation.BELOW, ten).verdict is ClaimVerdict.BORNE_OUT
    found = weigh_own_rate(tally(0, 60, unknown=4), Relation.BELOW, ten)
    assert found.verdict is ClaimVerdict.BEYOND
    # Newcombe, Stat Med 1998;17:857-872, prints exact 0 to 0.1684 for 0 of 20.
    found = weigh_own_rate(tally(0, 20), Relation.BELOW, ten)
    assert (found.interval.low, found.interval.high) == (0, pytest.approx(0.1684, abs=5e-5))


@pytest.mark.parametrize(
    ("first", "second", "verdict"),
    [
        (tally(1, 50), tally(5, 50), ClaimVerdict.BEYOND),
        (tally(5, 50), tally(1, 50), ClaimVerdict.CONTRADICTED),
        (tally(5, 50), tally(5, 50), ClaimVerdict.CONTRADICTED),
        # Not of one thing, or not all known: not even the order is sure.
        (tally(5, 50, window="follow_up"), tally(1, 50), ClaimVerdict.BEYOND),
        (tally(5, 50), tally(1, 50, unknown=9), ClaimVerdict.BEYOND),
    ],
)
def test_two_levels_of_one_unit(first, second, verdict):
    assert weigh_own_levels(first, second, Relation.LOWER_THAN).verdict is verdict
