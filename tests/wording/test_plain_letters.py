"""A letter that cannot be shown is shown in its nearest plain form, and never breaks a line."""

import sys

import pytest

from evsyn.wording.plain_letters import plain_text


@pytest.mark.parametrize(
    ("written", "plain"),
    [
        ("1.2 – 3.4", "1.2 - 3.4"),
        ("−0.3 ± 0.1", "-0.3 +/- 0.1"),
        ("Müller’s “series”…", 'Muller\'s "series"...'),
        ("Žižková Ł, Ødegård, Weiß", "Zizkova L, Odegard, Weiss"),
        ("τ² ≥ ½", "tau2 >= 1/2"),
        ("ﬁrst ①", "first 1"),
        ("月", "?"),
        ("a\u200eb\u00adc\ufeff", "abc"),
    ],
)
def test_the_nearest_plain_form(written: str, plain: str) -> None:
    assert plain_text(written) == plain


def test_every_letter_there_is_has_a_plain_form_on_the_same_line() -> None:
    # All that Unicode numbers, the halves of pairs too, which stand for bytes in a file's name.
    for number in range(0x80, sys.maxunicode + 1, 7):
        plain = plain_text(chr(number))
        assert plain.isascii()
        assert "\n" not in plain
