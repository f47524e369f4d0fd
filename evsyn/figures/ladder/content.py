"""What a ladder of pooled answers shows, before anyone thinks of drawing it."""

from dataclasses import dataclass, field

from evsyn.figures.invented import Invented, banner_words
from evsyn.wording.page import PageWords


@dataclass(frozen=True, slots=True)
class Rung:
    """One answer: what it is of, its count, and proportions.

    Parameters
    ----------
    label, note, value : str
        What it is of; its studies or count; the answer in words.
    estimate, low, high : float or None
        The answer; ``None`` where there is none to draw.
    """

    label: str
    note: str
    value: str
    estimate: float | None = None
    low: float = 0.0
    high: float = 0.0


@dataclass(frozen=True, slots=True)
class LadderContent:
    """Everything a ladder says.

    Parameters
    ----------
    title, subtitle : str
        What is asked, and of what.
    headings : tuple of str
        Over labels, notes and values.
    base : Rung
        The answer as it stands; it stands first, and its interval is shaded behind all.
    rungs : tuple of Rung
        The other answers, in order.
    caption, status_line : str
        How to read it; what a reader must know of the review.
    invented : Invented
        What of it is invented; marks every page.
    words : PageWords
        Page numbers and marks.
    """

    title: str
    subtitle: str
    headings: tuple[str, str, str]
    base: Rung
    rungs: tuple[Rung, ...]
    caption: str
    status_line: str
    invented: Invented
    words: PageWords = field(default_factory=PageWords)

    @property
    def all(self) -> tuple[Rung, ...]:
        """The answer as it stands, and the others."""
        return (self.base, *self.rungs)

    @property
    def banner(self) -> str:
        """Words of the strip over what is invented; empty where nothing is."""
        return banner_words(self.invented, self.words)
