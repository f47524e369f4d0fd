"""The sheets a figure may be laid out for."""

from dataclasses import dataclass
from typing import Literal


@dataclass(frozen=True, slots=True)
class PageFormat:
    """Size and type limits of a sheet.

    Parameters
    ----------
    width : float
        Width in ``unit``.
    height : float or None
        Height; ``None`` grows with the content, always one page.
    margin : float
        Free edge.
    sizes : tuple of float
        Type sizes to try, largest first; the last is the least allowed.
    paged_size : float
        Type size once one page cannot hold the figure.
    max_rows : int or None
        More rows than this fall back to summaries, as on a slide; ``None`` turns pages instead.
    title_scale : float
        Size of the title against the rows.
    stacked : bool
        Whether a row's words stand above its interval and not beside it.
    slack : float
        Free room around rows and bands, against that of a page.
    ticks_below : bool
        Whether the tick values stand under the rows as well as above them.
    unit : str
        ``pt`` or ``px``.
    """

    width: float
    height: float | None
    margin: float
    sizes: tuple[float, ...]
    paged_size: float
    max_rows: int | None = None
    title_scale: float = 1.45
    stacked: bool = False
    slack: float = 1.0
    ticks_below: bool = True
    unit: Literal["pt", "px"] = "pt"

    @property
    def is_slide(self) -> bool:
        """Whether it is shown on a screen of fixed height, in few and short words."""
        return self.max_rows is not None


A4 = PageFormat(595.28, 841.89, 26, (9.5, 9, 8.5, 8, 7.5, 7), paged_size=8)
SLIDE = PageFormat(
    960,
    540,
    24,
    (18, 17, 16, 15, 14),
    paged_size=14,
    max_rows=20,
    title_scale=1.3,
    slack=0.4,
    ticks_below=False,
)

_NARROWEST, _STACKED_BELOW = 320, 720


def web(width: float) -> PageFormat:
    """Return the format of a screen of some width in pixels; narrow ones stack each row.

    Raises
    ------
    ValueError
        Below 320 pixels, where words and intervals no longer fit.
    """
    if width < _NARROWEST:
        raise ValueError(f"a figure needs a width of {_NARROWEST} pixels or more, not {width:g}")
    return PageFormat(
        width, None, 12, (12,), paged_size=12, stacked=width < _STACKED_BELOW, unit="px"
    )
