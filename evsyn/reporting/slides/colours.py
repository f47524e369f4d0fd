"""The palette in the colours of a theme, so that a figure takes on a hospital's own."""

from collections.abc import Mapping
from dataclasses import dataclass

from evsyn.figures.palette import BANDS, DIM, GRID, INK, NEUTRAL, PAPER, RULE, UNIT

#: Least contrast of marks and of words against their ground (W3C, WCAG 2.1, 1.4.11 and 1.4.3).
_MARK, _WORDS = 3.0, 4.5


@dataclass(frozen=True, slots=True)
class Theme:
    """The colours a theme gives its ground, words and accents, as ``RRGGBB``."""

    ground: str
    ink: str
    accents: tuple[str, ...]

    def accent(self, index: int, *, words: bool) -> str:
        """Return the name of an accent, or of the ink where the accent is too faint to be seen."""
        place = index % len(self.accents)
        enough = _WORDS if words else _MARK
        seen = contrast(self.accents[place], self.ground) >= enough
        return f"accent{place + 1}" if seen else "tx1"


def contrast(one: str, other: str) -> float:
    """Return the contrast ratio of two colours, from 1 to 21 (W3C, WCAG 2.1).

    Examples
    --------
    >>> contrast("000000", "FFFFFF"), contrast("777777", "777777")
    (21.0, 1.0)
    """
    dark, light = sorted((_luminance(one), _luminance(other)))
    return (light + 0.05) / (dark + 0.05)


def _luminance(colour: str) -> float:
    parts = (int(colour[i : i + 2], 16) / 255 for i in (0, 2, 4))
    linear = [p / 12.92 if p <= 0.04045 else ((p + 0.055) / 1.055) ** 2.4 for p in parts]
    return sum(w * p for w, p in zip((0.2126, 0.7152, 0.0722), linear, strict=True))


_ROLES: Mapping[str, str] = {
    INK: '<a:schemeClr val="tx1"/>',
    UNIT: '<a:schemeClr val="tx1"/>',
    PAPER: '<a:schemeClr val="bg1"/>',
    DIM: '<a:schemeClr val="tx1"><a:lumMod val="75000"/><a:lumOff val="25000"/></a:schemeClr>',
    RULE: '<a:schemeClr val="tx1"><a:lumMod val="50000"/><a:lumOff val="50000"/></a:schemeClr>',
    GRID: '<a:schemeClr val="bg1"><a:lumMod val="85000"/></a:schemeClr>',
    NEUTRAL.pale: '<a:schemeClr val="tx1"><a:alpha val="25000"/></a:schemeClr>',
}


def fill(colour: str, theme: Theme, *, opacity: float = 1.0, words: bool = False) -> str:
    """Return a colour of the palette as the fill of a shape.

    Pale steps are the accent let through, so that they suit a dark ground as well; what warns,
    as the mark of invented data, keeps its own colour in every theme.

    Parameters
    ----------
    colour : str
        As ``#RRGGBB``.
    theme : Theme
        The theme of the file.
    opacity : float
        From 0 to 1.
    words : bool
        Whether it colours words, which need more contrast.
    """
    return f"<a:solidFill>{_colour(colour, theme, opacity, words)}</a:solidFill>"


def _colour(colour: str, theme: Theme, opacity: float, words: bool) -> str:
    if opacity < 1:
        return f'<a:srgbClr val="{colour[1:]}"><a:alpha val="{round(1e5 * opacity)}"/></a:srgbClr>'
    if colour in _ROLES:
        return _ROLES[colour]
    for index, band in enumerate(BANDS):
        name = theme.accent(index, words=words)
        if colour == band.strong:
            return f'<a:schemeClr val="{name}"/>'
        if colour in (band.pale, band.wash):
            let_through = 40000 if colour == band.pale else 8000
            return f'<a:schemeClr val="{name}"><a:alpha val="{let_through}"/></a:schemeClr>'
    return f'<a:srgbClr val="{colour[1:]}"/>'
