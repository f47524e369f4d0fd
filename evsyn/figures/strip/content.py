"""What count strips show, before anyone thinks of drawing them."""

from dataclasses import dataclass

from evsyn.figures.invented import Invented, banner_words
from evsyn.figures.own_count import OwnCount
from evsyn.terms import Source
from evsyn.wording.strip import StripWords


@dataclass(frozen=True, slots=True)
class Columns:
    """The counts drawn, and their chances.

    Parameters
    ----------
    first : int
        The lowest count drawn.
    ordinary : tuple of float
        Chance of each count, from ``first`` up, among ordinary new units of the same size.
    average : tuple of float
        The same if every unit shared the typical rate.
    tallest : float
        The largest of all these chances.
    first_more, last_fewer : int or None
        Smallest count called more than the range, largest called fewer; ``None`` if there is
        none.
    is_judged : bool
        Whether a verdict could be given at all.
    """

    first: int
    ordinary: tuple[float, ...]
    average: tuple[float, ...]
    tallest: float
    first_more: int | None
    last_fewer: int | None
    is_judged: bool

    @property
    def last(self) -> int:
        """The highest count drawn."""
        return self.first + len(self.ordinary) - 1

    def is_beyond(self, number: int) -> bool:
        """Whether a count is called more or fewer than the range."""
        above = self.first_more is not None and number >= self.first_more
        return above or (self.last_fewer is not None and number <= self.last_fewer)


@dataclass(frozen=True, slots=True)
class Strip:
    """One count of a unit among those of ordinary new units.

    Parameters
    ----------
    title : str
        What was counted, among whom.
    own : OwnCount
        Our count, as far as it is told.
    own_words : str
        The same in words.
    sentence, short_sentence : str
        The verdict, or why there is none; the short one for slides, empty where there is none.
    columns : Columns or None
        The chances; ``None`` where nothing is compared.
    size, short_size : str
        How many cases against how many studies, and what is not drawn; the short one for slides.
    more, fewer : str
        Words at the two ends of the range.
    hue : int
        Place of its outcome, for the colour.
    source : Source or None
        Where our count was written.
    """

    title: str
    own: OwnCount
    own_words: str
    sentence: str
    short_sentence: str = ""
    columns: Columns | None = None
    size: str = ""
    short_size: str = ""
    more: str = ""
    fewer: str = ""
    hue: int = 0
    source: Source | None = None


@dataclass(frozen=True, slots=True)
class StripContent:
    """Everything a page of count strips says.

    Parameters
    ----------
    title, subtitle : str
        What is counted; whose, and when.
    strips : tuple of Strip
        At least one.
    status_line : str
        What a reader must know of the review; stands on every page.
    caption, short_caption : str
        Remarks; the same for a slide.
    invented : Invented
        What of it is invented; marks every page.
    words : StripWords
        Headings and legend.
    mark, short_mark : str
        Who may see it, at the head of every page; the same for a slide.
    """

    title: str
    subtitle: str
    strips: tuple[Strip, ...]
    status_line: str
    caption: str
    invented: Invented
    words: StripWords
    short_caption: str = ""
    mark: str = ""
    short_mark: str = ""

    @property
    def banner(self) -> str:
        """Words of the strip over what is invented; empty where nothing is."""
        return banner_words(self.invented, self.words)
