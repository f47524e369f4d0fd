"""Words are as long as the pen draws them."""

from itertools import pairwise

import pytest
from matplotlib import rc_context
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure
from matplotlib.font_manager import FontProperties

from evsyn.figures.measure import (
    drawable,
    font_file,
    left_to_right,
    one_line,
    shortened,
    text_width,
    typeset,
    wrapped,
)

WORDS = (
    "4 of 52",
    "7.7% (2.1% to 18.5%)",
    "A typical setting sees 5.3% (3.6% to 7.9%), 96 of 1,204 in 18 studies",
    "Wójcik-Ångström, Ærø & Çelik 2009",
    "← fewer is better · per 100 patients",
)


@pytest.mark.parametrize("bold", [False, True])
@pytest.mark.parametrize("words", WORDS)
def test_measured_length_is_the_drawn_length(words: str, bold: bool) -> None:
    # The second route is matplotlib's own text layout, unhinted.
    with rc_context({"text.hinting": "no_hinting"}):
        figure = Figure(figsize=(12, 1), dpi=300)
        canvas = FigureCanvasAgg(figure)
        face = FontProperties(fname=font_file(bold=bold), size=10)
        text = figure.text(0, 0.5, words, fontproperties=face, parse_math=False)
        drawn = text.get_window_extent(canvas.get_renderer()).width * 72 / 300
    assert text_width(words, 10, bold=bold) == pytest.approx(drawn, rel=0.01, abs=0.4)


def test_length_grows_with_size() -> None:
    assert text_width("perforation", 14) == pytest.approx(2 * text_width("perforation", 7))
    assert text_width("", 14) == 0


def test_words_that_fit_stay_whole() -> None:
    assert shortened("Alder 2009", 100, 7) == "Alder 2009"


@pytest.mark.parametrize("room", [40.0, 77.0, 150.0])
def test_long_names_end_in_an_ellipsis_and_fit(room: float) -> None:
    name = "Alder-Bilberry-Campion-Dogwood-Eyebright-Foxglove-Gorse-Hornbeam 2009"
    cut = shortened(name, room, 7)
    assert cut.endswith("…")
    assert name.startswith(cut[:-1])
    assert text_width(cut, 7) <= room


def test_wrapping_loses_no_word_and_fits() -> None:
    words = "The rate of an ordinary new setting may lie anywhere from 1.0% to 22.0%."
    lines = wrapped(words, 90, 8)
    assert " ".join(lines) == words
    assert len(lines) > 2
    assert all(text_width(line, 8) <= 90 for line in lines)


def test_wrapping_breaks_a_word_longer_than_the_line() -> None:
    word = "x" * 60
    lines = wrapped(f"see {word}", 50, 8)
    assert "".join(lines[1:]) == word
    assert all(text_width(line, 8) <= 50 for line in lines)


def test_nothing_wraps_to_nothing() -> None:
    assert wrapped("", 50, 8) == ()


def test_line_breaks_and_control_letters_leave_one_line() -> None:
    assert one_line("Alder\n and\t\x07 Gorse ") == "Alder and Gorse"
    assert typeset(0, 0, "a\nb", 8, "#000000").words == "a b"


def test_letters_the_typeface_lacks_become_squares() -> None:
    assert drawable("Alder \U0001f9ea 漢") == "Alder □ □"
    assert drawable("Ångström") == "Ångström"


def test_a_very_long_word_is_broken_into_the_longest_lines_that_fit() -> None:
    word = "Will" * 1000
    lines = wrapped(word, 100, 9)
    assert "".join(lines) == word
    for line, following in pairwise(lines):
        assert text_width(line, 9) <= 100 < text_width(line + following[0], 9)


def test_a_room_narrower_than_a_letter_takes_one_letter_a_line() -> None:
    assert wrapped("WWW", 1, 9) == ("W", "W", "W")


def test_a_right_to_left_name_leaves_the_numbers_after_it_in_order() -> None:
    name = "مستشفى العاصمة"
    # Left-to-right marks at the start and after the name: Unicode annex 9, section 2.6.
    assert left_to_right(f"{name}, 7 of 43") == f"\u200e{name}\u200e, 7 of 43"
    assert left_to_right(WORDS[0]) == WORDS[0]


def test_marks_of_direction_have_no_width() -> None:
    figure = Figure(figsize=(6, 1), dpi=100)
    canvas = FigureCanvasAgg(figure)
    face = FontProperties(fname=font_file(bold=False), size=10)
    plain, marked = (
        figure.text(0, 0.5, words, fontproperties=face).get_window_extent(canvas.get_renderer())
        for words in ("שלום", left_to_right("שלום"))
    )
    assert marked.width == pytest.approx(plain.width, abs=1.0)
