"""One question of a pocket card with its answer, as shapes."""

from dataclasses import dataclass

from evsyn.figures.measure import text_width, typeset, wrapped
from evsyn.figures.palette import INK, band_colours
from evsyn.figures.paper import Paper
from evsyn.figures.shapes import Box, Group, Rect, Shape
from evsyn.wording.pocket import PocketWords, Prompt

#: In units of the type size: type of the question, room beside the bar and around the question.
_BIG, _PAD, _AROUND = 1.1, 0.7, 0.25


@dataclass(frozen=True, slots=True)
class Answer:
    """A question on its band, and under it what to say and what not to say.

    Parameters
    ----------
    paper : Paper
        The sheet.
    number : int
        Its place on the card, from 0.
    prompt : Prompt
        The question and its answer.
    words : PocketWords
        The headings.
    """

    paper: Paper
    number: int
    prompt: Prompt
    words: PocketWords

    @property
    def height(self) -> float:
        """The room it takes."""
        lines = sum(len(lines) for _, lines in self._parts())
        return self._band_height() + lines * self.paper.line_height

    def groups(self, top: float) -> list[Group]:
        """Return its shapes, the band first."""
        paper, size = self.paper, self.paper.size
        hue, bottom = band_colours(self.number), top + self._band_height()
        wash = Rect(Box(paper.left, top, paper.right, bottom), hue.wash)
        bar = Rect(Box(paper.left, top, paper.left + 0.3 * size, top + self.height), hue.strong)
        asked: list[Shape] = []
        y = top + _AROUND * size
        for line in self._question():
            y += _BIG * paper.line_height
            base = y - 0.26 * _BIG * size
            asked.append(typeset(self._label, base, line, _BIG * size, INK, bold=True))
        answered: list[Shape] = []
        y = bottom
        for label, lines in self._parts():
            base = paper.baseline(y + 0.5 * paper.line_height)
            answered.append(typeset(self._label, base, label, size, hue.strong, bold=True))
            for line in lines:
                base = paper.baseline(y + 0.5 * paper.line_height)
                answered.append(typeset(self._column, base, line, size, INK))
                y += paper.line_height
        return [
            Group("wash", (wash, bar)),
            Group("heading", tuple(asked)),
            Group("sentence", tuple(answered)),
        ]

    @property
    def _label(self) -> float:
        return self.paper.left + _PAD * self.paper.size

    @property
    def _column(self) -> float:
        """Where the sentences start, beside the longest heading."""
        size = self.paper.size
        labels = (self.words.say, self.words.more, self.words.never)
        return self._label + max(text_width(label, size, bold=True) for label in labels) + size

    def _question(self) -> tuple[str, ...]:
        asked = f"{self.number + 1}  {self.prompt.question}"
        room = self.paper.right - self._label - _PAD * self.paper.size
        return wrapped(asked, room, _BIG * self.paper.size, bold=True)

    def _band_height(self) -> float:
        return len(self._question()) * _BIG * self.paper.line_height + 2 * _AROUND * self.paper.size

    def _parts(self) -> tuple[tuple[str, tuple[str, ...]], ...]:
        room, size = self.paper.right - self._column, self.paper.size
        prompt, words = self.prompt, self.words
        told = (
            (words.say, prompt.at_once),
            (words.more, prompt.if_asked),
            (words.never, prompt.never),
        )
        return tuple((label, wrapped(said, room, size)) for label, said in told if said)
