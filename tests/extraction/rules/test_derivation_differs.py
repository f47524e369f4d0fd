"""The arithmetic behind a derived count must come out."""

import pytest


def derived(tiny, text):
    return tiny.sedge("events: 2, total: 30,", f'events: 2, total: 30, derived: "{text}",').found(
        "derivation-differs"
    )


@pytest.mark.parametrize(
    "text",
    ["44 - 4 = 40", "44 − 4 = 40", "8 + 2 = 10 resected", "3+2=5", "144 - 29 = 115.",
     "1 + 2 + 3 = 6", "10 - 3 + 1 = 8", "5.1% of 255 = 13", "93% of 14 = 13.", "100% of 58 = 58",
     "98.3% of 61 = 60", "none in the text, so 0", "2001-2004", "12 of 34", "7 \\t+ \\n 1 = 8",
     "1.5 + 2 = 3.5", "29/144 - 3 = 2"],
)  # fmt: skip
def test_arithmetic_that_comes_out_or_is_none(tiny, text):
    assert derived(tiny, text) == []


@pytest.mark.parametrize(
    ("text", "wrong"),
    [
        ("44 - 4 = 41", "44 - 4 = 41"),
        ("44 − 4 = 41 (Table 1)", "44 − 4 = 41"),
        ("8 + 2 = 11.", "8 + 2 = 11"),
        ("so 1 + 2 + 3 = 7, and 2 + 2 = 4", "1 + 2 + 3 = 7"),
        ("5.1% of 255 = 14", "5.1% of 255 = 14"),
        ("13.9% of 144 = 29.", "13.9% of 144 = 29"),
        ("5% of 0 = 0", "5% of 0 = 0"),
    ],
)
def test_arithmetic_that_does_not_come_out(tiny, text, wrong):
    (finding,) = derived(tiny, text)
    assert finding.message == f"the arithmetic '{wrong}' does not come out"


def test_each_wrong_piece_is_told(tiny):
    assert len(derived(tiny, "1 + 1 = 3; 2 + 2 = 5; 10% of 10 = 2")) == 3
