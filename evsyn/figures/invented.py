"""What of a figure is invented, and the words across it that say so."""

import math
from enum import StrEnum

from evsyn.figures.measure import text_width, typeset
from evsyn.figures.palette import WATERMARK, WATERMARK_OPACITY
from evsyn.figures.paper import Paper
from evsyn.figures.shapes import Group, Text
from evsyn.wording.page import PageWords

_TURN = 24.0


class Invented(StrEnum):
    """Which of the figures shown are invented."""

    NOTHING = "nothing"
    UNIT = "unit"
    STUDIES = "studies"
    ALL = "all"


def banner_words(invented: Invented, words: PageWords) -> str:
    """Return the words of the strip over what is invented; empty where nothing is."""
    return {
        Invented.NOTHING: "",
        Invented.UNIT: words.invented_unit,
        Invented.STUDIES: words.invented_studies,
        Invented.ALL: words.invented,
    }[invented]


def watermark(
    paper: Paper, invented: Invented, words: str, top: float, bottom: float
) -> list[Group]:
    """Return large thin words over what is drawn, repeated on a tall screen.

    They lie over the marks and let them show through: under them, bars and frames would hide
    letters. Where only the unit is invented, its mark says so, and nothing else is marked.
    """
    if invented not in (Invented.ALL, Invented.STUDIES):
        return []
    width, height = paper.fmt.width, bottom - top
    times = max(1, round(height / (1.2 * width)))
    each = height / times
    # Flatter on a low figure, where steep words would have to be small.
    degrees = min(_TURN, math.degrees(math.atan2(each, width)))
    turn = math.radians(degrees)
    long = text_width(words, 1.0, bold=True)
    across = 0.8 * width / (long * math.cos(turn) + math.sin(turn))
    down = 0.92 * each / (long * math.sin(turn) + math.cos(turn))
    size = max(min(across, down), paper.size)
    texts: list[Text] = [
        typeset(
            width / 2 + 0.36 * size * math.sin(turn),
            top + (i + 0.5) * each + 0.36 * size * math.cos(turn),
            words,
            size,
            WATERMARK,
            anchor="middle",
            bold=True,
            rotation=degrees,
            opacity=WATERMARK_OPACITY,
        )
        for i in range(times)
    ]
    return [Group("watermark", tuple(texts))]
