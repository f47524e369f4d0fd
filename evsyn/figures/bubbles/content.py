"""What a drawing of a regression on one number shows."""

from dataclasses import dataclass, field

from evsyn.figures.invented import Invented, banner_words
from evsyn.terms import Source
from evsyn.wording.page import PageWords


@dataclass(frozen=True, slots=True)
class Bubble:
    """One study.

    Parameters
    ----------
    place : float
        Where it stands along the axis.
    rate : float
        Its proportion, 0 to 1.
    weight : float
        What the bubble's area follows: the study's total.
    label, said : str
        Its name; name, value and count in words.
    sources : tuple of Source
        Where the count came from.
    """

    place: float
    rate: float
    weight: float
    label: str
    said: str
    sources: tuple[Source, ...] = ()


@dataclass(frozen=True, slots=True)
class LinePlace:
    """A point of the regression line: place along the axis, rate and its limits, 0 to 1."""

    place: float
    rate: float
    low: float
    high: float


@dataclass(frozen=True, slots=True)
class BubbleContent:
    """Everything a drawing of a regression says.

    Parameters
    ----------
    title, subtitle : str
        What is asked, and of what.
    up, axis_starts, across : str
        Words of the axis of rates; what stands behind them where it does not start at 0, with a
        place for its start; words of the axis below.
    ticks : tuple of (float, str)
        Places named on the axis below.
    bubbles : tuple of Bubble
        The studies.
    line : tuple of LinePlace
        The model that is read, from left to right.
    caption, status_line : str
        How to read it; what a reader must know of the review.
    invented : Invented
        What of it is invented; marks every page.
    words : PageWords
        Marks of the page.
    """

    title: str
    subtitle: str
    up: str
    axis_starts: str
    across: str
    ticks: tuple[tuple[float, str], ...]
    bubbles: tuple[Bubble, ...]
    line: tuple[LinePlace, ...]
    caption: str
    status_line: str
    invented: Invented
    words: PageWords = field(default_factory=PageWords)

    @property
    def banner(self) -> str:
        """Words of the strip over what is invented; empty where nothing is."""
        return banner_words(self.invented, self.words)
