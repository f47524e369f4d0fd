"""Ask, and keep every answer, so that a paper can be left and taken up again."""

import json
from collections.abc import Mapping
from pathlib import Path
from typing import Any

import click

from evsyn.cli.new.asking import Asker, Read
from evsyn.cli.options import refuse

#: Beside the extracts; a name that begins with a full stop and is no YAML is read by nothing else.
UNFINISHED = ".unfinished-paper.json"
#: What a person types to stop and go on another day.
LATER = "later"
_FORMAT = 1
_SHORT = {True: "y", False: "n"}


class LeftError(Exception):
    """Raised where a person stops, to go on another day."""


class KeptAsker(Asker):
    """An asker whose answers are kept in a file as they are given, and given again from it.

    Parameters
    ----------
    asks : bool or None
        As in :class:`Asker`.
    place : pathlib.Path
        Where the answers are kept. Each stands beside its question: where another question comes
        than the one that was answered, what was kept beyond it is let go.
    """

    def __init__(self, asks: bool | None, place: Path) -> None:
        super().__init__(asks)
        self.place = place
        self._before = _read(place)
        self._kept: list[tuple[str, str]] = []

    @property
    def waiting(self) -> int:
        """Answers that were kept and are not given again yet."""
        return len(self._before)

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
        """Return one answer, the kept one where there is one."""
        if given is not None or not self.asks:
            return super().one(question, option, given, read, default=default, needed=needed)
        again = self._again(question)
        if again is not None:
            try:
                value = read(again) if again else None
            except ValueError:
                self._before.clear()
            else:
                click.echo(f"{question}: {again}")
                self.keep(question, again)
                return value
        written = ""

        def taken(text: str) -> Any:
            nonlocal written
            if text.strip().lower() == LATER:
                raise LeftError
            value = read(text)
            written = text
            return value

        value = super().one(question, option, None, taken, default=default, needed=needed)
        self.keep(question, written)
        return value

    def yes(self, question: str, given: bool | None, *, default: bool) -> bool:
        """Return whether something is so, by the kept answer where there is one."""
        if given is not None or not self.asks:
            return super().yes(question, given, default=default)
        from evsyn.extraction.starting import answers
        from evsyn.wording.adding import YES_OR_NO

        # By a prompt of words, so that 'later' is heard here too.
        said = self.one(
            question + YES_OR_NO,
            option="",
            given=None,
            read=answers.yes_or_no,
            default=_SHORT[default],
        )
        return bool(said)

    def keep(self, question: str, answer: str) -> None:
        """Keep one more answer, on the disk too."""
        from evsyn.reporting.files import write_whole

        self._kept.append((question, answer))
        held = {"format": _FORMAT, "answers": [*self._kept, *self._before]}
        write_whole(self.place, json.dumps(held, ensure_ascii=False, indent=1) + "\n")

    def again(self, question: str) -> str | None:
        """Return a kept answer to what is not asked by a prompt, and go on keeping it."""
        found = self._again(question)
        if found is not None:
            self.keep(question, found)
        return found

    @property
    def number(self) -> int:
        """Answers that are kept now."""
        return len(self._kept) + len(self._before)

    def done(self) -> None:
        """Forget what was kept: the paper is whole."""
        self.place.unlink(missing_ok=True)

    def _again(self, question: str) -> str | None:
        if not self._before:
            return None
        asked, answer = self._before.pop(0)
        if asked != question:
            self._before.clear()
            return None
        return answer

    def _offer(self, words: Mapping[str, str]) -> None:
        if not self._before:
            super()._offer(words)


def _read(place: Path) -> list[tuple[str, str]]:
    from evsyn.wording.adding import unreadable

    try:
        held = json.loads(place.read_text(encoding="utf-8"))
        if held["format"] == _FORMAT:
            return [(str(asked), str(answer)) for asked, answer in held["answers"]]
    except FileNotFoundError:
        return []
    except (ValueError, KeyError, TypeError):
        refuse(unreadable(str(place)))
    return refuse(unreadable(str(place)))
