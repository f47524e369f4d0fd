"""Paragraphs onto slides: the largest type that fits, else more slides."""

from collections.abc import Sequence

from evsyn.figures.measure import wrapped
from evsyn.reporting.slides.room import LEAST, LINE, MOST_ROWS, Room
from evsyn.reporting.slides.slide import Paragraph, Run, Slide, TextBody
from evsyn.wording.report_slides import part_title

#: Free room after a paragraph, in units of the type size.
AFTER = 0.4
SIZES = (24.0, 22.0, 20.0, 18.0, 16.0, LEAST)


def text_slides(
    room: Room,
    key: str,
    title: str,
    paragraphs: Sequence[Paragraph],
    notes: Sequence[str] = (),
    *,
    sizes: Sequence[float] = SIZES,
) -> list[Slide]:
    """Return paragraphs on one slide at the largest size that holds them, else on several.

    Parameters
    ----------
    room : Room
        The slide.
    key, title : str
        Name and message; on several slides the first has the key.
    paragraphs : sequence of Paragraph
        What is said.
    notes : sequence of str
        For the speaker; on the first slide.
    sizes : sequence of float
        Type sizes to try, largest first.
    """
    for size in sizes:
        bodies = _bodies(room, paragraphs, size)
        if len(bodies) == 1:
            break
    return [
        Slide(
            key if i == 0 else "",
            part_title(title, i + 1, len(bodies)),
            body,
            tuple(notes) if i == 0 else (),
        )
        for i, body in enumerate(bodies)
    ]


def lines_of(room_width: float, paragraph: Paragraph, size: float) -> int:
    """Return how many lines a paragraph takes."""
    return max(1, len(wrapped(paragraph.words, room_width, size, bold=paragraph.bold)))


def _bodies(room: Room, paragraphs: Sequence[Paragraph], size: float) -> list[TextBody]:
    most = min(MOST_ROWS, int(room.body_height / (LINE * size)))
    pieces = [piece for one in paragraphs for piece in _pieces(one, room.body_width, size, most)]
    bodies: list[TextBody] = []
    held: list[Paragraph] = []
    lines, height = 0, 0.0
    for piece in pieces:
        number = lines_of(room.body_width, piece, size)
        needed = number * LINE * size
        if held and (lines + number > most or height + needed > room.body_height):
            bodies.append(TextBody(tuple(held), size, height - AFTER * size))
            held, lines, height = [], 0, 0.0
        held.append(piece)
        lines += number
        height += needed + AFTER * size
    bodies.append(TextBody(tuple(held), size, max(0.0, height - AFTER * size)))
    return bodies


def _pieces(paragraph: Paragraph, width: float, size: float, most: int) -> list[Paragraph]:
    """Return a paragraph, or, where no slide holds it, its parts without what they lead to."""
    words = wrapped(paragraph.words, width, size, bold=paragraph.bold)
    if len(words) <= most:
        return [paragraph]
    parts = [words[i : i + most] for i in range(0, len(words), most)]
    return [Paragraph((Run(" ".join(part)),), paragraph.bold) for part in parts]
