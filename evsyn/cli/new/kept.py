"""Ask, and remember every answer, so that a person can go back, or leave and go on another day."""

import shlex
from collections.abc import Callable, Sequence
from pathlib import Path
from textwrap import fill
from typing import Any, NoReturn, TypeVar

import click

from evsyn.cli.new.asking import Asker, Read
from evsyn.cli.new.remembered import Remembered, read_kept, write_kept
from evsyn.cli.options import WIDTH, refuse

#: Beside the extracts; a name that begins with a full stop and is no YAML is read by nothing else.
UNFINISHED = ".unfinished-paper.json"
#: What a person types to stop and go on another day, and to go to the question before.
LATER, BACK = "later", "back"
_Made = TypeVar("_Made")


class LeftError(Exception):
    """Raised where a person stops, to go on another day."""


class BackError(Exception):
    """Raised where an answer is to be given anew; holds its place among those given."""


class KeptAsker(Asker):
    """An asker that remembers the answers, and gives them again.

    Each is known by its question and by what it was asked about, so that it is found again where
    questions between are answered by options, or are asked no more.

    Parameters
    ----------
    asks : bool or None
        As in :class:`Asker`.
    place : pathlib.Path, optional
        A file in which the answers are kept as they are given; else they are forgotten at the end.
    """

    def __init__(self, asks: bool | None, place: Path | None = None) -> None:
        super().__init__(asks)
        self.place = place
        self._before = read_kept(place) if place and self.asks else []
        self._kept: list[tuple[str, str]] = []
        #: Answers at the beginning that nobody can go back over.
        self.fixed = 0
        self._waiting, self._taken = len(self._before), 0
        self._held: list[str] = []
        #: Whether answers are given again after a step back, and nothing is said of them.
        self.is_quiet = False

    def walked(self, walk: Callable[[], _Made]) -> _Made:
        """Return what a walk over the questions makes; it begins anew after each step back."""
        while True:
            try:
                return walk()
            except BackError as back:
                wrong: int = back.args[0]
            asked_anew = (self._kept[wrong][0], None)
            given: list[Remembered] = [*self._kept[:wrong], asked_anew, *self._kept[wrong + 1 :]]
            self._before, self._kept = [*given, *self._before], []
            self._held, self.is_quiet, self.about = [], True, ""
            self._write()

    def one(
        self,
        question: str,
        option: str,
        given: str | None,
        read: Read,
        *,
        default: str | None = None,
        needed: bool = True,
    ) -> Any:
        """Return one answer, the remembered one where there is one."""
        if given is not None or not self.asks:
            return super().one(question, option, given, read, default=default, needed=needed)
        key = f"{self.about}: {question}" if self.about else question
        again = self._again(key)
        if again is not None:
            try:
                value = read(again) if again.strip() else None
            except ValueError:
                # The plan has changed, or what stood before it: it is asked like any other.
                self._taken -= not self.is_quiet
            else:
                if not self.is_quiet:
                    click.echo(f"{question}: {again}")
                self._held.clear()
                self.keep(key, again)
                return value
        self.flush()
        written = ""

        def taken(text: str) -> Any:
            nonlocal written
            self.hear(text)
            value = read(text)
            written = text
            return value

        value = super().one(question, option, None, taken, default=default, needed=needed)
        self.keep(key, written)
        return value

    def hear(self, text: str) -> None:
        """Stop, or go back, if that is what was typed."""
        from evsyn.wording.new_questions import FIRST_QUESTION

        word = text.strip().lower()
        if word == LATER and self.place:
            raise LeftError
        if word == BACK:
            if len(self._kept) <= self.fixed:
                raise ValueError(FIRST_QUESTION)
            raise BackError(len(self._kept) - 1)

    def keep(self, question: str, answer: str) -> None:
        """Remember one more answer, on the disk too."""
        self._kept.append((question, answer))
        self._write()

    def again(self, question: str) -> str | None:
        """Return a remembered answer to what is not asked by a prompt, and go on keeping it."""
        found = self._again(question)
        if found is not None:
            self.keep(question, found)
        return found

    def tell(self, lines: Sequence[str]) -> None:
        """Say something to a person who is asked, once no answer is given again after it."""
        if self.asks and self._before:
            self._held += lines
        else:
            self._tell_taken()
            super().tell(lines)

    def flush(self) -> None:
        """Say what waits to be said, before a person is asked."""
        self._tell_taken()
        held, self._held = self._held, []
        super().tell(held)
        self.is_quiet = False

    def refused(self) -> NoReturn:
        """Ask which answer is wrong, after a person would not write the file."""
        from evsyn.extraction.starting import answers
        from evsyn.wording import new_questions as say
        from evsyn.wording.adding import REFERENCE

        # The answer to whether to write it is none of the paper's.
        self._kept.pop()
        self._write()
        told = [
            (place, one)
            for place, one in enumerate(self._kept)
            if one[1].strip() and one[0] != REFERENCE
        ]
        for number, (_, (question, answer)) in enumerate(told, 1):
            click.echo(f"  {number:2} {question}: {' '.join(answer.split())[:60]}")
        read = answers.number(1, len(told))
        while True:
            written = click.prompt(say.WHICH_WRONG, default="", show_default=False)
            if not written.strip() or written.strip().lower() == LATER:
                break
            try:
                number = len(told) if written.strip().lower() == BACK else read(written)
            except ValueError as reason:
                click.echo(f"  {reason}")
            else:
                raise BackError(told[number - 1][0])
        if self.place:
            raise LeftError
        refuse(say.NOT_WRITTEN)

    @property
    def number(self) -> int:
        """Answers that are kept now."""
        return sum(answer is not None for _, answer in [*self._kept, *self._before])

    def tell_kept(self, words: Sequence[str]) -> None:
        """Say where the answers are, and which command takes them up again."""
        from evsyn.wording import adding as say

        if not self.number:
            click.echo(f"\n{say.NOTHING_KEPT}")
            return
        told = fill(say.kept(self.number, str(self.place)), WIDTH, break_on_hyphens=False)
        click.echo(f"\n{told}\n  {shlex.join(['evsyn', *words])}")

    def done(self) -> None:
        """Forget what was kept: the paper is whole."""
        if self.asks and self.place:
            self.place.unlink(missing_ok=True)

    def _tell_taken(self) -> None:
        from evsyn.wording.adding import taken_up

        if self._waiting:
            click.echo(taken_up(self._taken, self._waiting))
            self._waiting = 0

    def _again(self, key: str) -> str | None:
        place = next((n for n, one in enumerate(self._before) if one[0] == key), None)
        if place is None:
            return None
        answer = self._before.pop(place)[1]
        self._taken += bool(self._waiting) and answer is not None
        return answer

    def _write(self) -> None:
        if self.place:
            write_kept(self.place, [*self._kept, *self._before])
