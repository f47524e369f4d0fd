"""A sheet at one type size: its edges, and the heights of its lines."""

from dataclasses import dataclass

from evsyn.figures.formats import PageFormat


@dataclass(frozen=True, slots=True)
class Paper:
    """A format at one type size.

    Parameters
    ----------
    fmt : PageFormat
        The sheet.
    size : float
        Type size of running text, in the unit of the format.
    """

    fmt: PageFormat
    size: float

    @property
    def left(self) -> float:
        """Left edge of what is printed."""
        return self.fmt.margin

    @property
    def right(self) -> float:
        """Right edge of what is printed."""
        return self.fmt.width - self.fmt.margin

    @property
    def bottom_margin(self) -> float:
        """Room under the last line."""
        return 0.5 * self.fmt.margin

    @property
    def line_height(self) -> float:
        """Distance between two baselines of running text."""
        return 1.19 * self.size

    def baseline(self, centre: float) -> float:
        """Return the baseline that centres a line of text on a height."""
        return centre + 0.345 * self.size
