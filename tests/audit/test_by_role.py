"""Counts by role, and the cases in which nothing is told."""

import pytest
from scipy.stats import binomtest

from evsyn.audit.by_role import Withheld, by_role
from evsyn.extraction.case_log.case import Case
from evsyn.terms import Source
from evsyn.wording.by_role import role_sentences
from tests.extraction.case_log.made_up import plan

PLAN = plan()


def cases(role, yes=0, no=0, unknown=0, apart=0):
    """Return cases of one role, ``apart`` of them outside the denominator."""
    said = [*["yes"] * yes, *["no"] * no, *["unknown"] * unknown, *[None] * apart]
    return [
        Case(
            Source("log.csv", row),
            "2021-01",
            {},
            "attempted",
            {},
            {},
            {} if one is None else {"fever": one},
            operator=role,
        )
        for row, one in enumerate(said, 2)
    ]


ENOUGH = [
    *cases("radiologist", 5, 15), *cases("surgeon", 1, 24, 2), *cases("physician", 0, 20, apart=3),
]  # fmt: skip


def test_counts_stand_in_the_plans_order_with_exact_intervals():
    told = by_role([*ENOUGH, *cases(None, 1, 3)], "fever", PLAN)
    assert [(one.role, one.events, one.total, one.unknown) for one in told.counts] == [
        ("surgeon", 1, 25, 2),
        ("physician", 0, 20, 0),
        ("radiologist", 5, 20, 0),
    ]
    assert (told.unplaced, told.withheld) == (4, None)
    for one in told.counts:
        # scipy's Clopper-Pearson interval, an independent route.
        low, high = binomtest(one.events, one.total).proportion_ci(method="exact")
        assert (one.interval.low, one.interval.high) == pytest.approx((low, high), abs=1e-9)


@pytest.mark.parametrize(
    ("listed", "why"),
    [
        ([], Withheld.NO_ROLES),
        (cases(None, 20, 20), Withheld.NO_ROLES),
        ([*cases("surgeon", 5, 50), *cases("physician", 5, 50)], Withheld.FEW_ROLES),
        ([*ENOUGH[1:]], Withheld.FEW_CASES),
        ([*ENOUGH[1:], *cases("radiologist", unknown=5, apart=9)], Withheld.FEW_CASES),
    ],
)
def test_nothing_is_told(listed, why):
    told = by_role(listed, "fever", PLAN)
    assert (told.counts, told.unplaced, told.withheld) == ((), 0, why)
    (said,) = role_sentences(told, PLAN)
    assert said.startswith("Fever is not told by role of the operator: ")
    assert not any(role in said for role in PLAN.audit.roles.values())


def test_it_is_said_in_the_plans_words_and_order():
    said = role_sentences(by_role([*ENOUGH, *cases(None, 1)], "fever", PLAN), PLAN)
    assert said[1] == "surgeon: 1 of 25 (4.0%; 0.1% to 20.4%), 2 more not known."
    assert said[2].startswith("gastroenterologist: 0 of 20 (0.0%; 0.0% to 16.8%).")
    assert said[4] == "1 case has no role written down and is in none of these."
    assert "ranks nobody" in said[5]
