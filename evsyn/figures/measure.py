"""How long words are in the typeface the figures use, and how to make them fit."""

import re
from bisect import bisect_right
from functools import cache
from typing import TYPE_CHECKING

from evsyn.figures.shapes import Anchor, Text

if TYPE_CHECKING:
    from matplotlib.ft2font import FT2Font

_EM = 1000.0
ELLIPSIS = "…"
#: Stands for a letter the typeface does not hold.
UNKNOWN = "□"
#: Tells that what stands beside it is read from the left.
_MARK = "\u200e"
_LETTERS = "[\u0590-\u08ff\ufb1d-\ufdff\ufe70-\ufefc\U00010800-\U00010fff\U0001e800-\U0001efff]+"
_RIGHT_TO_LEFT = re.compile(rf"{_LETTERS}(?:\s+{_LETTERS})*")


def font_file(*, bold: bool) -> str:
    """Return the path of the typeface, which ships with matplotlib."""
    from matplotlib import get_data_path

    name = "DejaVuSans-Bold" if bold else "DejaVuSans"
    return f"{get_data_path()}/fonts/ttf/{name}.ttf"


@cache
def _font(bold: bool) -> "FT2Font":
    from matplotlib.ft2font import FT2Font

    font = FT2Font(font_file(bold=bold))
    font.set_size(_EM, 72)
    return font


@cache
def _advance(letter: str, bold: bool) -> float:
    font = _font(bold)
    known = letter if font.get_char_index(ord(letter)) else UNKNOWN
    return float(font.load_char(ord(known)).linearHoriAdvance) / 65536 / _EM


def text_width(words: str, size: float, *, bold: bool = False) -> float:
    """Return the length of words set at a type size, in the unit of the size."""
    return size * sum(_advance(letter, bold) for letter in words)


def drawable(words: str) -> str:
    """Return words with every letter the typeface lacks shown as an empty square."""
    font = _font(False)
    return "".join(letter if font.get_char_index(ord(letter)) else UNKNOWN for letter in words)


def left_to_right(words: str) -> str:
    """Return words whose right-to-left names leave the numbers after them in their order.

    Without a mark, ``7 of 43`` after an Arabic name would be drawn with the 7 on its other side.
    The marks have no width.
    """
    if not _RIGHT_TO_LEFT.search(words):
        return words
    return _MARK + _RIGHT_TO_LEFT.sub(rf"\g<0>{_MARK}", words)


def one_line(words: str) -> str:
    """Return words without line breaks, control letters or doubled spaces."""
    return " ".join("".join(c if c.isprintable() else " " for c in words).split())


def shortened(words: str, room: float, size: float, *, bold: bool = False) -> str:
    """Return words that fit a room, cut at the end with an ellipsis where they do not."""
    if text_width(words, size, bold=bold) <= room:
        return words
    kept = words
    while kept and text_width(kept.rstrip() + ELLIPSIS, size, bold=bold) > room:
        kept = kept[:-1]
    return kept.rstrip() + ELLIPSIS


def wrapped(words: str, room: float, size: float, *, bold: bool = False) -> tuple[str, ...]:
    """Return words broken into lines that fit a room; a longer word is broken inside."""
    lines: list[str] = []
    line = ""
    for word in one_line(words).split(" "):
        longer = f"{line} {word}" if line else word
        if text_width(longer, size, bold=bold) <= room:
            line = longer
            continue
        if line:
            lines.append(line)
        line = word
        while text_width(line, size, bold=bold) > room and len(line) > 1:
            cut = _letters_that_fit(line, room, size, bold)
            lines.append(line[:cut])
            line = line[cut:]
    return (*lines, line) if line else tuple(lines)


def _letters_that_fit(word: str, room: float, size: float, bold: bool) -> int:
    def width(cut: int) -> float:
        return text_width(word[:cut], size, bold=bold)

    # A word may be thousands of letters long, so the cut is sought by halving.
    return max(1, bisect_right(range(len(word)), room, key=width) - 1)


def typeset(
    x: float,
    y: float,
    words: str,
    size: float,
    colour: str,
    *,
    anchor: Anchor = "start",
    bold: bool = False,
    rotation: float = 0.0,
    opacity: float = 1.0,
) -> Text:
    """Return words as a shape with their measured length."""
    clean = one_line(words)
    length = text_width(clean, size, bold=bold)
    return Text(x, y, clean, size, length, colour, anchor, bold, rotation, opacity)
