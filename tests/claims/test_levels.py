"""Two levels differ where the one test of all levels and the interval of these two both say so."""

import math

import pytest

from evsyn.claims.verdict import ClaimVerdict
from evsyn.pooling.difference import Difference, NoTest
from evsyn.pooling.strata_test import Contrast, StrataStatus, StrataTest
from tests.claims.builders import DEMO, weighed

LEVELS = ("palliation", "bridge_to_surgery")


def difference(ratio, low, high, p, k=(12, 9), levels=LEVELS):
    """Return a test in which the first level has this odds ratio against the second."""
    contrast = Contrast(*levels, math.log(ratio), 0.1, math.log(low), math.log(high))
    test = StrataTest(
        "exact_likelihood_ratio",
        StrataStatus.TESTED,
        levels,
        k,
        (),
        0.95,
        tau2=0.1,
        statistic=4.0,
        p=p,
        differences=(contrast,),
    )
    return Difference(test)


@pytest.mark.parametrize(
    ("made", "relation", "verdict"),
    [
        (difference(0.5, 0.3, 0.8, 0.01), "lower_than", ClaimVerdict.BORNE_OUT),
        (difference(0.5, 0.3, 0.8, 0.01), "higher_than", ClaimVerdict.CONTRADICTED),
        # The same the other way round: the interval turns with the pair.
        (
            difference(2.0, 1.25, 3.3, 0.01, levels=LEVELS[::-1]),
            "lower_than",
            ClaimVerdict.BORNE_OUT,
        ),
        # Interval or test alone is not enough, nor are few series.
        (difference(0.5, 0.3, 0.8, 0.06), "lower_than", ClaimVerdict.BEYOND),
        (difference(0.5, 0.2, 1.1, 0.04), "lower_than", ClaimVerdict.BEYOND),
        (difference(0.5, 0.3, 0.8, 0.01, k=(12, 4)), "lower_than", ClaimVerdict.BEYOND),
        (Difference(None, reason=NoTest.TOO_FEW), "lower_than", ClaimVerdict.BEYOND),
    ],
)
def test_what_it_takes(monkeypatch, made, relation, verdict):
    monkeypatch.setattr("evsyn.claims.levels.stratum_difference", lambda *_, **__: made)
    found = weighed(
        DEMO,
        about="evidence",
        outcome="perforation",
        scope={"intent": "palliation"},
        relation=relation,
        than="bridge_to_surgery",
    )
    assert found.verdict is verdict


def test_the_pair_is_turned_as_the_claim_has_it(monkeypatch):
    made = difference(2.0, 1.25, 4.0, 0.01, levels=LEVELS[::-1])
    monkeypatch.setattr("evsyn.claims.levels.stratum_difference", lambda *_, **__: made)
    found = weighed(
        DEMO,
        about="evidence",
        outcome="perforation",
        scope={"intent": "palliation"},
        relation="lower_than",
        than="bridge_to_surgery",
    ).weighed.found
    assert (found.ratio, found.low, found.high) == pytest.approx((0.5, 0.25, 0.8))
