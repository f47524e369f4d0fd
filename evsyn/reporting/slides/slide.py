"""A talk as plain data: slides, their words and figures, before any file format."""

from dataclasses import dataclass
from typing import TypeAlias

from evsyn.figures.shapes import Page


@dataclass(frozen=True, slots=True)
class Run:
    """Words, and where they lead.

    Parameters
    ----------
    words : str
        The words.
    target : str
        Key of a slide they lead to; empty for none.
    address : str
        Web address they lead to; empty for none.
    """

    words: str
    target: str = ""
    address: str = ""


@dataclass(frozen=True, slots=True)
class Paragraph:
    """Words that belong together."""

    runs: tuple[Run, ...]
    bold: bool = False

    @property
    def words(self) -> str:
        """All its words."""
        return "".join(run.words for run in self.runs)


@dataclass(frozen=True, slots=True)
class TextBody:
    """Paragraphs at one type size, and the room after each; ``height`` is what all measure."""

    paragraphs: tuple[Paragraph, ...]
    size: float
    after: float
    height: float


@dataclass(frozen=True, slots=True)
class FigureBody:
    """A figure as shapes, and the same in words."""

    page: Page
    name: str
    description: str


Body: TypeAlias = TextBody | FigureBody


@dataclass(frozen=True, slots=True)
class Slide:
    """One slide.

    Parameters
    ----------
    key : str
        Its name, for links; empty where none leads to it.
    title : str
        Its message.
    body : Body
        Words or a figure.
    notes : tuple of str
        What the speaker may need, a paragraph each.
    back : str
        Key of the slide that its foot leads back to.
    section : str
        The part of the talk it belongs to.
    is_cover : bool
        Whether it stands on the layout to begin with.
    """

    key: str
    title: str
    body: Body
    notes: tuple[str, ...] = ()
    back: str = ""
    section: str = ""
    is_cover: bool = False


def plain(words: str, *, bold: bool = False) -> Paragraph:
    """Return words that lead nowhere as a paragraph."""
    return Paragraph((Run(words),), bold)
