"""The words of the count strip."""

from dataclasses import replace

import numpy as np
import pytest

from evsyn.audit.power import Notice
from evsyn.audit.reasons import Reason
from evsyn.audit.verdict import Limits, Verdict, limits
from evsyn.terms import Better
from evsyn.wording.strip import (
    fewer_words,
    heights_words,
    more_words,
    no_verdict_words,
    not_drawn_words,
    of_hundred,
    own_words,
    strip_title,
    verdict_words,
)
from evsyn.wording.strip_risk import risk_sentence, short_risk_sentence

#: Made by hand: 20 cases, called more from 7 and fewer never.
REACH = Limits(first_more=7, last_fewer=None, chance_more=0.016, chance_fewer=0.0, low=0, high=6)
BOTH = Limits(first_more=17, last_fewer=3, chance_more=0.02, chance_fewer=0.014, low=4, high=16)


def test_our_count_is_told_as_far_as_it_may_be() -> None:
    assert own_words((3,), 27) == "ours: 3 of 27"
    assert own_words((8, 9, 10, 11, 12), 40) == "ours: between 8 and 12 of 40"
    assert own_words((), 40) == "own count withheld"
    assert own_words((), None) == "own count withheld"


def test_the_ends_of_the_range() -> None:
    assert more_words(REACH, 20) == "from 7: more than the range (1.6% of ordinary units)"
    assert fewer_words(REACH) == "fewer: none possible"
    assert fewer_words(BOTH) == "up to 3: fewer than the range (1.4% of ordinary units)"


def test_a_single_count_at_an_end_stands_alone() -> None:
    found = limits(np.array([0.02, 0.5, 0.47, 0.01]))
    assert more_words(found, 3).startswith("3: more")
    assert fewer_words(found).startswith("0: fewer")


def test_what_may_not_be_said_is_told_from_what_is_not_possible() -> None:
    pmf = np.array([0.02, 0.5, 0.47, 0.01])
    found = limits(pmf, more=False, fewer=False)
    assert more_words(found, 3) == "more: not said, the windows differ"
    assert fewer_words(found) == "fewer: not said, the windows differ"
    wide = limits(np.array([0.5, 0.5]))
    assert more_words(wide, 1) == "more: none possible"


def test_chances_as_numbers_of_a_hundred() -> None:
    chances = [0.0, 0.0004, 0.0049, 0.005, 0.263, 0.996, 1.0]
    said = ["", "<1", "<1", "1", "26", ">99", "100"]
    assert [of_hundred(chance) for chance in chances] == said


def test_columns_in_words() -> None:
    said = heights_words(2, (0.6, 0.39, 0.01, 0.001))
    assert said == "of 100 ordinary new units 60 see 2, 39 see 3, 1 see 4"


def test_what_is_not_drawn_is_named_with_its_chance() -> None:
    assert not_drawn_words(0, 20, 20, 0, 0) == ""
    assert not_drawn_words(0, 8, 20, 0, 0.003) == "not drawn: 9 or more, 0.3% of ordinary units"
    assert not_drawn_words(1, 19, 20, 0.001, 0.002) == (
        "not drawn: 0, 0.1%; 20, 0.2% of ordinary units"
    )
    assert "4 or fewer" in not_drawn_words(5, 20, 20, 0.001, 0)


def test_a_verdict_is_given_if_every_possible_count_would_get_it() -> None:
    within = verdict_words([Verdict.WITHIN] * 5, REACH, Better.FEWER)
    assert within == "Within the range of 0 to 6."
    more = verdict_words([Verdict.MORE], REACH, Better.FEWER)
    assert more == "More than the range of 0 to 6: look at the cases."
    welcome = verdict_words([Verdict.MORE], REACH, Better.MORE)
    assert "check ascertainment and denominator first" in welcome
    split = verdict_words([Verdict.WITHIN, Verdict.MORE], REACH, Better.FEWER)
    assert split.endswith("the verdict is told inside the unit only.")
    assert verdict_words([], REACH, Better.FEWER) == "The range of ordinary new units is 0 to 6."


@pytest.mark.parametrize(
    "reason", [Reason.FEW_STUDIES, Reason.NO_SPREAD, Reason.TOO_FEW_CASES, Reason.WINDOW]
)
def test_without_a_verdict_the_reason_and_the_range(reason: Reason) -> None:
    said = no_verdict_words(reason, REACH)
    assert "no verdict" in said.lower()
    assert said.endswith("The range would be 0 to 6.")
    assert ("Unreliable" in said) is (reason is Reason.FEW_STUDIES)


def test_what_the_cases_could_have_shown() -> None:
    notice = Notice(typical=0.065, doubled=0.13, notice=0.052, share_beyond=0.1)
    said = risk_sentence(notice, REACH, Better.FEWER)
    assert said.startswith("A unit at twice the typical risk (13.0%) would be noticed")
    assert "5.2%" in said
    assert "could not be noticed" in risk_sentence(notice, REACH, Better.MORE)
    assert short_risk_sentence(notice, REACH, Better.FEWER) == (
        "Of 100 units at twice the risk, about 5 would be noticed."
    )
    assert short_risk_sentence(notice, REACH, Better.MORE) == (
        "Twice the risk of falling short could not be noticed."
    )
    few = replace(notice, notice=0.002)
    assert short_risk_sentence(few, REACH, Better.FEWER) == (
        "Of 100 units at twice the risk, fewer than 1 would be noticed."
    )
    both = replace(REACH, last_fewer=0)
    capped = replace(notice, typical=0.6, doubled=0.95)
    assert short_risk_sentence(capped, both, Better.MORE) == (
        "Of 100 units at a risk of falling short of 95.0%, about 5 would be noticed."
    )
    assert "too high to be doubled" in risk_sentence(None, REACH, Better.FEWER)
    assert short_risk_sentence(None, REACH, Better.FEWER) == ""


def test_titles() -> None:
    assert strip_title("", "", "") == "Our counts among those of ordinary new units"
    assert strip_title("Perforation", "", "").startswith("Perforation: our counts")
    one = strip_title("Perforation", "Palliation", "ours: 3 of 27")
    assert one == "Perforation, palliation; ours: 3 of 27, among ordinary new units"
