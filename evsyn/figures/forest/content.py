"""What a forest plot shows, before anyone thinks of drawing it."""

from dataclasses import dataclass

from evsyn.figures.invented import Invented, banner_words
from evsyn.pooling.answer import Show
from evsyn.terms import Better, Source
from evsyn.wording.forest import ForestWords


@dataclass(frozen=True, slots=True)
class StudyLine:
    """One study's row; ``low`` and ``high`` are proportions, ``weight`` a share of its band.

    ``weight`` is ``None`` where nothing is pooled. ``marks`` holds the letters explained in the
    foot, ``mark_words`` what they mean.
    """

    label: str
    year: int | None
    events: int
    total: int
    low: float
    high: float
    weight: float | None
    marks: str
    mark_words: str
    sources: tuple[Source, ...]

    @property
    def estimate(self) -> float:
        """Observed proportion."""
        return self.events / self.total

    @property
    def name(self) -> str:
        """Label with the year, unless the label already ends in it."""
        if self.year is None or str(self.year) in self.label:
            return self.label
        return f"{self.label} {self.year}"


@dataclass(frozen=True, slots=True)
class UnitLine:
    """A unit's own row, drawn apart from the studies."""

    label: str
    events: int
    total: int
    low: float
    high: float
    source: Source

    @property
    def estimate(self) -> float:
        """Observed proportion."""
        return self.events / self.total


@dataclass(frozen=True, slots=True)
class Summary:
    """A pooled row: its method in words, and proportions."""

    method: str
    estimate: float
    low: float
    high: float


@dataclass(frozen=True, slots=True)
class Band:
    """One pool: its rows, its summaries, and the sentence under it.

    Parameters
    ----------
    title, counts : str
        Name of the pool, and its counts in words.
    lines : tuple of StudyLine
        Rows to draw; empty where the band shows its summary alone.
    show : Show
        How much may be shown.
    sentence, short_sentence : str
        What the pool says, and no more; and the same for a slide, empty where there is none. The
        short one stands beside the title where it fits.
    headline, reading : Summary or None
        The two rows; ``reading`` is ``None`` where it is the headline or where there is none.
    reading_is_headline : bool
        Whether the headline is also the row to read.
    both : Summary or None
        Two studies added up, where that was asked for; drawn open.
    prediction, wider_prediction : tuple of float or None
        Range for a new setting, from five studies up; and the range at the larger spread that
        could have been missed.
    unit : UnitLine or None
        The unit's own row in this band.
    hue : int or None
        Its place in the palette; ``None`` for its place in the figure.
    """

    title: str
    counts: str
    lines: tuple[StudyLine, ...]
    show: Show
    sentence: str
    short_sentence: str = ""
    headline: Summary | None = None
    reading: Summary | None = None
    reading_is_headline: bool = False
    both: Summary | None = None
    prediction: tuple[float, float] | None = None
    wider_prediction: tuple[float, float] | None = None
    unit: UnitLine | None = None
    hue: int | None = None

    @property
    def summaries(self) -> tuple[Summary, ...]:
        """The pooled rows, headline first; or two studies added up."""
        rows = (self.headline, self.reading, self.both)
        return tuple(row for row in rows if row is not None)

    @property
    def observed(self) -> tuple[StudyLine | UnitLine, ...]:
        """The rows that are counts: studies, then the unit."""
        units = () if self.unit is None else (self.unit,)
        return (*self.lines, *units)


@dataclass(frozen=True, slots=True)
class ForestContent:
    """Everything a forest plot says.

    Parameters
    ----------
    title, subtitle : str
        The outcome; the denominator and window wanted, and how many counts have them.
    better : Better
        Which way the outcome should go.
    bands : tuple of Band
        At least one.
    status_line : str
        What a reader must know of the review; stands on every page.
    caption, short_caption, mark_key : str
        Interval method and remarks; the same for a slide, empty where there is none; the letters
        beside the counts explained.
    invented : Invented
        What of it is invented; marks every page.
    words : ForestWords
        Headings and legend.
    mark, short_mark : str
        Who may see it, at the head of every page; the same for a slide.
    """

    title: str
    subtitle: str
    better: Better
    bands: tuple[Band, ...]
    status_line: str
    caption: str
    mark_key: str
    invented: Invented
    words: ForestWords
    short_caption: str = ""
    mark: str = ""
    short_mark: str = ""

    @property
    def is_empty(self) -> bool:
        """Whether no study here reports the outcome."""
        return all(band.show is Show.NOTHING for band in self.bands)

    @property
    def unit_tag(self) -> str:
        """What stands before the unit's name."""
        return self.words.invented_unit_tag if self.invented is Invented.UNIT else self.words.unit

    @property
    def banner(self) -> str:
        """Words of the strip over what is invented; empty where nothing is."""
        return banner_words(self.invented, self.words)
