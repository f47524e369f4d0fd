"""Colours of the figures: few, dark enough for text, told apart in grey as well.

No distinction rests on hue: marks also differ by shape, outline or word.
"""

from dataclasses import dataclass

INK = "#1C262B"
DIM = "#475259"
PAPER = "#FFFFFF"
RULE = "#7E888E"
GRID = "#DCE1E4"
UNIT = "#111111"
INVENTED_GROUND, INVENTED_INK = "#FFE08A", "#3A2A00"
#: Who may see a figure: dark, so that in grey as well it is not taken for the strip above.
AUDIENCE_GROUND, AUDIENCE_INK = "#6B1D2A", "#FFF3F0"
#: Laid over everything, so that no mark hides it, and so thin that all words stay readable.
WATERMARK, WATERMARK_OPACITY = "#8A6A00", 0.16


@dataclass(frozen=True, slots=True)
class BandColours:
    """Three steps of one hue: marks, the prediction range, and the shade behind the rows."""

    strong: str
    pale: str
    wash: str


BANDS = (
    BandColours("#0E4A5A", "#9DBDC7", "#EBF2F4"),
    BandColours("#7A3B10", "#D9B597", "#F8F0E9"),
    BandColours("#572763", "#C4A9CD", "#F4EEF6"),
    BandColours("#36501F", "#B2C49B", "#F0F4EA"),
    BandColours("#3A4650", "#B3BDC4", "#F0F2F4"),
)


#: For the legend, where several bands share it.
NEUTRAL = BandColours("#475259", "#C3C9CD", PAPER)


def band_colours(index: int) -> BandColours:
    """Return the colours of a band by its place in the figure; they repeat after the last."""
    return BANDS[index % len(BANDS)]
