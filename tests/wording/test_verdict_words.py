"""A verdict, or the reason why there is none, in a table cell."""

import pytest

from evsyn.audit.reasons import Reason
from evsyn.audit.verdict import Verdict
from evsyn.wording.next_period import changes_sentence
from evsyn.wording.verdict import verdict_words


@pytest.mark.parametrize("reason", list(Reason))
def test_every_reason_has_short_words(reason):
    said = verdict_words(Verdict.NONE, reason)
    # The whole's own case mix speaks for itself, by the words of its own comparison.
    assert said != "no verdict" or reason is Reason.CASE_MIX


def test_a_verdict_needs_no_reason():
    assert verdict_words(Verdict.WITHIN, Reason.WINDOW) == "within the range"
    assert verdict_words(Verdict.NONE, Reason.NO_FOLLOW_UP) == "no verdict: follow-up not told"


def test_a_period_is_summed_up():
    told = [Verdict.WITHIN, Verdict.FEWER, Verdict.NONE]
    assert changes_sentence(told, "2018-04", "2022-03") == (
        "Against the period before, 2018-04 to 2022-03: 3 counts held alike, 2 with a verdict, 1 "
        "outside what a unit with that past would show. Details at the end."
    )
    assert "none with a verdict, none outside" in changes_sentence([], "2018", "2019")
