"""The sentences that leave the unit, word for word."""

from pathlib import Path

import pytest

from evsyn.audit.exact import exact_interval, one_sided_limit
from evsyn.audit.outside import OutsideCount, shared_verdict
from evsyn.audit.release import released, withheld
from evsyn.audit.verdict import Limits
from evsyn.extraction.load import read_review
from evsyn.terms import Better
from evsyn.wording.outside import (
    cases_sentence,
    outside_sentences,
    outside_verdict,
    told_words,
)

PLAN = read_review(Path(__file__).parents[2] / "studies" / "demo").plan
REACH = Limits(first_more=10, last_fewer=None, chance_more=0.02, chance_fewer=0.0, low=0, high=9)
NO_FIGURE = "Neither share nor place is given, since they would narrow it."
ORDINARY = "ordinary new units with these cases and this case mix show 0 to 9 of 41"
OF_41 = "of 41 patients in whom a stent was attempted, within 30 days"


def told(count, *, limits=REACH, is_complete=True, is_share=True, window="30_days", months=None):
    """Return a count of perforations as it is told."""
    has_share = count.is_exact and is_share
    return OutsideCount(
        outcome="perforation",
        basis="attempted",
        window=window,
        better=Better.FEWER,
        followed_months=months,
        count=count,
        interval=exact_interval(count.shown, count.total) if has_share else None,
        one_sided=one_sided_limit(count.shown, count.total) if has_share else None,
        is_complete=is_complete,
        limits=limits,
        verdict=None if limits is None else shared_verdict(count.possible, limits),
    )


def test_none_is_told_with_what_remains_possible():
    # Exact limits of 0 of 41: 1 - 0.025 ** (1 / 41) = 8.6%, 1 - 0.05 ** (1 / 41) = 7.0%.
    assert outside_sentences(told(released(0, 41)), PLAN) == (
        f"Perforation, all cases: none {OF_41}.",
        "The data are compatible with a true rate from 0.0% to 8.6% (exact two-sided 95%).",
        "Rates up to 7.0% remain possible (one-sided 95%).",
        f"This is within the range: {ORDINARY}.",
    )


def test_all_is_told_with_what_remains_possible():
    # Exact limits of 41 of 41: 0.025 ** (1 / 41) = 91.4%, 0.05 ** (1 / 41) = 93.0%.
    assert outside_sentences(told(released(41, 41)), PLAN) == (
        f"Perforation, all cases: all 41 {OF_41}.",
        "The data are compatible with a true rate from 91.4% to 100.0% (exact two-sided 95%).",
        "Rates down to 93.0% remain possible (one-sided 95%).",
        f"This is more than the range: {ORDINARY}.",
    )


def test_a_rounded_count_has_no_share():
    assert outside_sentences(told(released(20, 41)), PLAN) == (
        f"Perforation, all cases: about 20 {OF_41}, rounded to 5. {NO_FIGURE}",
        f"Whichever of these counts it is, it is more than the range: {ORDINARY}.",
    )


def test_a_small_count_is_hidden():
    assert outside_sentences(told(released(2, 41)), PLAN) == (
        f"Perforation, all cases: between 1 and 7 {OF_41}; the count itself is hidden. {NO_FIGURE}",
        f"Whichever of these counts it is, it is within the range: {ORDINARY}.",
    )


def test_a_small_number_without_the_event_is_hidden():
    assert outside_sentences(told(released(40, 41), limits=None), PLAN) == (
        f"Perforation, all cases: between 33 and 40 {OF_41}; the count itself is hidden, and its "
        f"limits widened so that rounding tells nothing. {NO_FIGURE}",
    )


def test_a_verdict_that_is_not_shared_is_not_told():
    item = told(released(9, 41))
    assert outside_sentences(item, PLAN)[-1] == (
        f"For comparison, {ORDINARY}. The verdict is withheld by rule, since it would narrow the "
        "count; it is withheld alike from welcome and unwelcome results."
    )
    assert outside_verdict(item) == "withheld"


def test_of_a_withheld_count_nothing_is_told():
    item = told(withheld(41), limits=None)
    assert outside_sentences(item, PLAN) == (
        "Perforation, all cases: withheld by rule: it is a share of few cases, or of cases that "
        "are themselves a count, as stents placed are.",
    )
    assert (told_words(item), outside_verdict(item)) == ("withheld", "withheld")


def test_unknown_outcomes_are_said_and_not_numbered():
    item = told(released(3, 41), limits=None, is_complete=False)
    assert outside_sentences(item, PLAN) == (
        f"Perforation, all cases: between 1 and 7 {OF_41}, not every outcome being known; the "
        f"count itself is hidden. {NO_FIGURE}",
    )


def test_a_late_event_says_how_long_cases_were_followed():
    late = "of 41 patients in whom a stent was attempted, up to the last follow-up"
    known = told(released(0, 41), limits=None, window="follow_up", months=8)
    assert outside_sentences(known, PLAN)[0] == (
        f"Perforation, all cases: none {late} (median 8 months)."
    )
    unknown = told(released(0, 41), limits=None, is_share=False, window="follow_up")
    assert outside_sentences(unknown, PLAN) == (f"Perforation, all cases: none {late}.",)


@pytest.mark.parametrize(
    ("count", "words"),
    [
        (released(0, 41), "0 of 41"),
        (released(41, 41), "41 of 41"),
        (released(20, 41), "about 20 of 41"),
        (released(2, 41), "1 to 7 of 41"),
        (released(40, 41), "33 to 40 of 41"),
    ],
)
def test_the_table_says_the_same(count, words):
    assert told_words(told(count)) == words


def test_without_a_comparison_the_table_says_so():
    assert outside_verdict(told(released(2, 41), limits=None)) == "no comparison"


@pytest.mark.parametrize(
    ("counted", "expected", "said"),
    [
        (41, 44, "41 patients are counted, 1 to 7 fewer than were expected"),
        (41, 41, "41 patients are counted, as many as were expected, or more"),
        (41, 40, "41 patients are counted, as many as were expected, or more"),
        (41, 53, "41 patients are counted, about 10 fewer than were expected"),
        (6, 8, "6 patients are counted, 1 to 7 fewer than were expected"),
    ],
)
def test_missing_cases_are_told_as_counts_are(counted, expected, said):
    assert cases_sentence(counted, expected, "patients") == (
        f"{said}; what is left out, and why, is told inside the unit."
    )


def test_a_few_missing_cases_are_one_of_seven():
    # With about 45 expected, 46 cases counted would have left one missing or none.
    for counted in range(8, 80):
        said = [cases_sentence(counted, counted + missing, "patients") for missing in range(1, 8)]
        assert len(set(said)) == 1


def test_a_released_whole_is_told_exactly():
    item = told(released(3, 41, exact=True))
    assert outside_sentences(item, PLAN)[0] == f"Perforation, all cases: 3 {OF_41}."
    assert told_words(item) == "3 of 41"
