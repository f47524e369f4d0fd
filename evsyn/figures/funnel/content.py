"""What a performance funnel shows, before anyone thinks of drawing it."""

from dataclasses import dataclass
from enum import StrEnum
from typing import TypeAlias

from evsyn.figures.invented import Invented, banner_words
from evsyn.figures.own_count import OwnCount
from evsyn.terms import Better, Source
from evsyn.wording.funnel import FunnelWords

#: Number of cases and share of them.
Place: TypeAlias = tuple[float, float]


class Spot(StrEnum):
    """Shape of a unit's mark."""

    PLAIN = "plain"
    ALERT = "alert"
    ALARM = "alarm"
    BEYOND = "beyond"


class Stroke(StrEnum):
    """What a line stands for."""

    ALERT = "alert"
    ALARM = "alarm"
    WIDE_ALERT = "wide_alert"
    WIDE_ALARM = "wide_alarm"


@dataclass(frozen=True, slots=True)
class FunnelPoint:
    """One unit, or one period of it.

    Parameters
    ----------
    label : str
        Its name.
    own : OwnCount
        Its count, as far as it is told.
    count : str
        The same in words.
    said, sentence : str
        Its flag or verdict in a word or two, and in full; empty where there is none to tell.
    spot : Spot
        Its mark.
    source : Source or None
        Where its count was written.
    """

    label: str
    own: OwnCount
    count: str
    said: str = ""
    sentence: str = ""
    spot: Spot = Spot.PLAIN
    source: Source | None = None

    @property
    def is_drawn(self) -> bool:
        """Whether anything of it is drawn."""
        return bool(self.own.possible)

    @property
    def cases(self) -> int:
        """Number of cases; 0 where even that is withheld."""
        return self.own.total or 0

    @property
    def shares(self) -> tuple[float, ...]:
        """Every share it may be."""
        return tuple(x / self.cases for x in self.own.possible)

    @property
    def words(self) -> str:
        """Name, count and flag, as beside its mark."""
        said = f", {self.said}" if self.said else ""
        return f"{self.label}: {self.count}{said}"


@dataclass(frozen=True, slots=True)
class Curve:
    """A line of the funnel, from left to right."""

    stroke: Stroke
    is_upper: bool
    places: tuple[Place, ...]


@dataclass(frozen=True, slots=True)
class RangeBand:
    """The range ordinary new units show: its lower and its upper edge, from left to right."""

    lower: tuple[Place, ...]
    upper: tuple[Place, ...]
    is_judged: bool


@dataclass(frozen=True, slots=True)
class FunnelContent:
    """Everything a performance funnel says.

    Parameters
    ----------
    title, subtitle : str
        The outcome; around what it is drawn.
    better : Better
        Which way the outcome should go.
    centre : float or None
        Target or typical rate; ``None`` where nothing is compared.
    points : tuple of FunnelPoint
        The units, in the order given.
    cases_end : int
        Where the axis of cases ends.
    curves : tuple of Curve
        Lines around a fixed target.
    band : RangeBand or None
        The range around a benchmark; never together with ``curves``.
    notes : tuple of str
        Remarks under the axis.
    nothing : str
        Why nothing is drawn, where that is so.
    mark, short_mark : str
        Who may see it, at the head of every page; the same for a slide.
    status_line, caption, short_caption : str
        Words for the foot; the last for slides.
    invented : Invented
        What of it is invented; marks every page.
    words : FunnelWords
        Axes and legend.
    """

    title: str
    subtitle: str
    better: Better
    centre: float | None
    points: tuple[FunnelPoint, ...]
    cases_end: int
    status_line: str
    caption: str
    short_caption: str
    invented: Invented
    words: FunnelWords
    curves: tuple[Curve, ...] = ()
    band: RangeBand | None = None
    notes: tuple[str, ...] = ()
    nothing: str = ""
    mark: str = ""
    short_mark: str = ""

    @property
    def banner(self) -> str:
        """Words of the strip over what is invented; empty where nothing is."""
        return banner_words(self.invented, self.words)
