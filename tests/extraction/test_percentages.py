"""Which percentages a count can give.

Idea: Brown NJL, Heathers JAJ. Soc Psychol Personal Sci 2017;8:363-369 (the GRIM test). A
percentage is a mean of zeros and ones, so the test of a mean of whole numbers holds for it.
"""

from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from evsyn.extraction.percentages import Fit, counts_that_fit, fit_of, printed_percentage


# Counts and percentages as printed in abstracts of published stent series; the year and the
# first author stand beside each. Whether each fits was worked out by long division.
@pytest.mark.parametrize(
    ("events", "total", "printed", "fit"),
    [
        (62, 69, "89.8%", Fit.TRUNCATED),  # Siddiqui 2017: 89.855
        (29, 30, "96.6%", Fit.TRUNCATED),  # Park 2011: 96.667
        (60, 61, "98.3%", Fit.TRUNCATED),  # Sundaram 2023: 98.361
        (14, 16, "87%", Fit.TRUNCATED),  # Gajendran 2014: 87.5
        (29, 144, "13.9%", Fit.IMPOSSIBLE),  # Arezzo 2017: 20.139
        (6, 62, "9.8%", Fit.IMPOSSIBLE),  # McNally 2017: 9.677; 6 of 61 is 9.836
        (6, 61, "9.8%", Fit.ROUNDED),
        (34, 72, "45.9%", Fit.IMPOSSIBLE),  # Ahn 2020: 47.222
        (3, 36, "27.3%", Fit.IMPOSSIBLE),  # printed share is of 11 adverse events
        (3, 11, "27.3%", Fit.ROUNDED),
        (12, 213, "5.6%", Fit.ROUNDED),  # the same 12 perforations by procedure
        (12, 183, "6.6%", Fit.ROUNDED),  # and by patient
        (12, 183, "5.6%", Fit.IMPOSSIBLE),
        (1, 44, "2.4%", Fit.IMPOSSIBLE),  # Amelung 2016: 2.273; 1 of 42 is 2.381
        (1, 42, "2.4%", Fit.ROUNDED),
        (16, 18, "88.9%", Fit.ROUNDED),
        (3, 19, "15.8%", Fit.ROUNDED),
    ],
)
def test_printed_counts(events, total, printed, fit):
    assert fit_of(events, total, printed) is fit


# Brown and Heathers 2017: a mean of 5.19 of 28 whole numbers is impossible, the nearest being 5.18
# and 5.21; a mean of 5.27 of 43 too, the nearest being 5.26 and 5.28. Their hundredths are
# percentages of the same denominators, and behave alike. (Examples from memory, recomputed.)
@pytest.mark.parametrize(
    ("total", "printed", "events"),
    [(28, "19%", []), (28, "18%", [5]), (28, "21%", [6]),
     (43, "27%", []), (43, "26%", [11]), (43, "28%", [12])],
)  # fmt: skip
def test_the_gaps_between_possible_values(total, printed, events):
    assert list(counts_that_fit(total, printed)) == events


# From abstracts: no count of these totals gives the percentage that is printed.
@pytest.mark.parametrize(
    ("total", "printed"),
    [(65, "93.4%"), (75, "91.2%"), (74, "91.2%"), (62, "86%"), (54, "86%"), (63, "91%"),
     (71, "91%"), (15, "88%"), (29, "41.2%")],
)  # fmt: skip
def test_percentages_no_count_gives(total, printed):
    assert not counts_that_fit(total, printed)


@pytest.mark.parametrize(
    ("total", "printed", "events"),
    [(59, "86.4%", [51]), (59, "3.4%", [2]), (26, "23%", [6]), (36, "16.7%", [6])],
)
def test_percentages_one_count_gives(total, printed, events):
    assert list(counts_that_fit(total, printed)) == events


# A rounding tie may go up, or to the even digit: 1/8 = 12.5%, 3/8 = 37.5%, 1/16 = 6.25%.
@pytest.mark.parametrize(
    ("events", "total", "printed", "fit"),
    [
        (1, 8, "12%", Fit.ROUNDED),
        (1, 8, "13%", Fit.ROUNDED),
        (3, 8, "38%", Fit.ROUNDED),
        (3, 8, "37%", Fit.TRUNCATED),
        (1, 16, "6.2%", Fit.ROUNDED),
        (1, 16, "6.3%", Fit.ROUNDED),
        (1, 200, "0%", Fit.ROUNDED),
        (1, 200, "1%", Fit.ROUNDED),
        (3, 200, "1%", Fit.TRUNCATED),
        (199, 200, "99%", Fit.TRUNCATED),
        (199, 200, "100%", Fit.ROUNDED),
    ],
)
def test_ties(events, total, printed, fit):
    assert fit_of(events, total, printed) is fit


def test_trailing_zeros_count():
    assert fit_of(1, 13, "7.7%") is Fit.ROUNDED
    assert fit_of(1, 13, "7.70%") is Fit.IMPOSSIBLE
    assert fit_of(1, 13, "7.69%") is Fit.ROUNDED
    assert fit_of(77, 1000, "7.70%") is Fit.ROUNDED


@pytest.mark.parametrize(
    ("text", "value"),
    [("7.7%", "7.7"), ("7.70 %", "7.70"), ("4 (7.70%)", "7.70"), ("4/52 (7,7%)", "7.7"),
     ("7·7%", "7.7"), ("8", "8"), (" 8.0 ", "8.0"), ("8 per cent", "8"), ("8 percent", "8"),
     ("0%", "0"), ("100%", "100")],
)  # fmt: skip
def test_reading_a_printed_percentage(text, value):
    read = printed_percentage(text)
    assert read == Decimal(value)
    assert str(read) == value


@pytest.mark.parametrize("text", ["", "%", "about half", "4 of 52", "4/52", "7.7.7", "9" * 4000])
def test_what_is_no_percentage(text):
    assert printed_percentage(text) is None
    assert fit_of(4, 52, text) is Fit.UNREAD
    assert not counts_that_fit(52, text)


def test_many_decimals_and_huge_totals_are_quick():
    assert fit_of(1, 3, f"33.{'3' * 25}%") is Fit.ROUNDED
    assert fit_of(1, 3, f"33.{'3' * 24}4%") is Fit.IMPOSSIBLE
    fitting = counts_that_fit(10**15 - 1, "7%")
    assert (fitting[0], fitting[-1]) == (65 * 10**12, 74_999_999_999_999)


def _fits_by_fractions(events, total, printed):
    """The rule in words: within half a unit of the last digit; an upper tie only to even."""
    number = printed.rstrip("%")
    unit = Fraction(1, 10 ** len(number.partition(".")[2]))
    gap = Fraction(100 * events, total) - Fraction(number)
    if gap == unit / 2:
        return int(Fraction(number) / unit) % 2 == 0
    return -unit / 2 <= gap < unit / 2


counts = st.integers(1, 2500).flatmap(lambda n: st.tuples(st.integers(0, n), st.just(n)))
percentages = st.integers(0, 3).flatmap(
    lambda d: st.integers(0, 100 * 10**d).map(lambda last: f"{Decimal(last).scaleb(-d):f}%")
)


@given(counts, st.integers(0, 4))
def test_a_counts_own_rounding_fits(count, decimals):
    events, total = count
    last, rest = divmod(100 * events * 10**decimals, total)
    rounded = Decimal(last + (2 * rest >= total)).scaleb(-decimals)
    printed = f"{rounded:f}%"
    assert fit_of(events, total, printed) is Fit.ROUNDED
    assert events in counts_that_fit(total, printed)


@given(counts, st.integers(0, 4))
def test_a_counts_own_truncation_is_never_impossible(count, decimals):
    events, total = count
    cut = Decimal(100 * events * 10**decimals // total).scaleb(-decimals)
    assert fit_of(events, total, f"{cut:f}%") in (Fit.ROUNDED, Fit.TRUNCATED)


@given(st.integers(1, 400), percentages)
def test_counts_that_fit_equals_trying_every_count(total, printed):
    every = [events for events in range(total + 1) if _fits_by_fractions(events, total, printed)]
    assert list(counts_that_fit(total, printed)) == every
    assert every == [e for e in range(total + 1) if fit_of(e, total, printed) is Fit.ROUNDED]
