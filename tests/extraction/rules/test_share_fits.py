"""Percentages kept for checking must be ones their denominators can give."""

import pytest


def kept(tiny, entry):
    return tiny.reed("arms:\n", f"also_printed: [{{what: men, {entry}}}]\narms:\n").found(
        "share-fits"
    )


# As printed in abstracts: 34 of 72 men are 47.2%, 6 of 61 are 9.8%, 51 of 59 are 86.4%.
@pytest.mark.parametrize(
    "entry",
    [
        'events: 6, totals: [62, 61], printed: "9.8%"',
        'totals: [61, 60, 59], printed: "86.4%"',
        'events: 62, totals: [69], printed: "89.8%"',
        'totals: [62], printed: "most"',
    ],
)
def test_shares_that_can_be(tiny, entry):
    assert kept(tiny, entry) == []


def test_a_count_that_cannot_be_printed_so(tiny):
    (finding,) = kept(tiny, 'events: 34, totals: [72], printed: "45.9%"')
    assert finding.message == "men: 34 of 72 cannot be printed as 45.9%"
    assert finding.source.key_path == "also_printed.0"


def test_a_percentage_no_denominator_gives(tiny):
    (finding,) = kept(tiny, 'totals: [63, 71], printed: "91%"')
    assert finding.message == "men: the paper prints 91%, which no count of 63 or 71 gives"


def test_more_events_than_any_total(tiny):
    assert len(kept(tiny, 'events: 80, totals: [72], printed: "111%"')) == 1


def test_a_huge_total_is_quick(tiny):
    assert kept(tiny, 'totals: [999999999999999], printed: "91%"') == []
