"""Paragraphs onto slides: the largest type that fits, else more slides."""

from collections.abc import Sequence
from dataclasses import replace

from evsyn.figures.measure import wrapped
from evsyn.reporting.slides.room import LEAST, LINE, MOST_ROWS, Room
from evsyn.reporting.slides.slide import Paragraph, Run, Slide, TextBody
from evsyn.wording.report_slides import part_title

#: Free room after a paragraph, in units of the type size: at least, and where there is room.
AFTER, _MOST_AFTER = 0.4, 1.0
#: How finely the height of even slides is sought.
_EVEN_STEPS = 24
SIZES = (28.0, 26.0, 24.0, 22.0, 20.0, 18.0, 16.0, LEAST)


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
    height = room.words.bottom - room.words.top
    for size in sizes:
        bodies = _bodies(room, paragraphs, size, height)
        if len(bodies) == 1:
            bodies = [_spread(bodies[0], height)]
            break
    else:
        bodies = _even(room, paragraphs, size, bodies)
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


def _spread(body: TextBody, room: float) -> TextBody:
    """Share free room among the paragraphs of a slide, as far as they still belong together."""
    gaps = len(body.paragraphs) - 1
    if not gaps:
        return body
    gain = min((room - body.height) / gaps, (_MOST_AFTER - AFTER) * body.size)
    return replace(body, after=body.after + gain, height=body.height + gaps * gain)


def _even(
    room: Room, paragraphs: Sequence[Paragraph], size: float, full: list[TextBody]
) -> list[TextBody]:
    """Fill as many slides evenly: full ones and a remnant read worse."""
    least = sum(body.height for body in full) / len(full)
    most = room.words.bottom - room.words.top
    for step in range(_EVEN_STEPS):
        height = least + (most - least) * step / _EVEN_STEPS
        bodies = _bodies(room, paragraphs, size, height)
        if len(bodies) == len(full):
            return bodies
    return full


def _bodies(
    room: Room, paragraphs: Sequence[Paragraph], size: float, room_height: float
) -> list[TextBody]:
    after, width = AFTER * size, room.body_width
    most = min(MOST_ROWS, int((room.words.bottom - room.words.top) / (LINE * size)))
    pieces = [piece for one in paragraphs for piece in _pieces(one, width, size, most)]
    bodies: list[TextBody] = []
    held: list[Paragraph] = []
    lines, height = 0, 0.0
    for piece in pieces:
        number = lines_of(width, piece, size)
        needed = number * LINE * size
        if held and (lines + number > most or height + needed > room_height):
            bodies.append(TextBody(tuple(held), size, after, height - after))
            held, lines, height = [], 0, 0.0
        held.append(piece)
        lines += number
        height += needed + after
    bodies.append(TextBody(tuple(held), size, after, max(0.0, height - after)))
    return bodies


def _pieces(paragraph: Paragraph, width: float, size: float, most: int) -> list[Paragraph]:
    """Return a paragraph, or, where no slide holds it, its parts without what they lead to."""
    words = wrapped(paragraph.words, width, size, bold=paragraph.bold)
    if len(words) <= most:
        return [paragraph]
    parts = [words[i : i + most] for i in range(0, len(words), most)]
    return [Paragraph((Run(" ".join(part)),), paragraph.bold) for part in parts]
