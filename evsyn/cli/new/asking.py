"""Ask one question at a time, or take the answer from an option; never both."""

import sys
from collections.abc import Callable, Collection, Iterable, Mapping, Sequence
from typing import TYPE_CHECKING, Any, NoReturn

import click

from evsyn.cli.options import refuse

if TYPE_CHECKING:
    from evsyn.terms import Finding

Read = Callable[[str], Any]
#: What the options of a verb hold, by name.
Given = dict[str, Any]


class Asker:
    """Where answers come from.

    Parameters
    ----------
    asks : bool or None
        Whether a person is asked for what no option gives; ``None`` where a terminal decides.
    """

    def __init__(self, asks: bool | None) -> None:
        self.asks = sys.stdin.isatty() if asks is None else asks
        self._troubles: list[str] = []
        #: What questions are about just now, as a group and an outcome; not said to a person.
        self.about = ""

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
        """Return one answer; ``None`` where it is left out, or is missing and nobody is asked.

        Parameters
        ----------
        question : str
            In plain words, without a mark at its end.
        option : str
            The option that answers it too.
        given : str or None
            What that option holds.
        read : callable
            Takes what was written; raises ``ValueError`` with the reason where it cannot be right.
        default : str, optional
            What stands where nothing is written.
        needed : bool
            Whether it may not be left out.
        """
        if given is not None:
            return self.read(option, given, read)
        if not self.asks:
            if default is not None:
                return self.read(option, default, read)
            if needed:
                self.missing(option, question)
            return None
        while True:
            written = self._written(question, default, needed)
            if not written.strip() and not needed:
                return None
            try:
                return read(written)
            except ValueError as reason:
                click.echo(f"  {_sentence(str(reason))}")

    def optional(self, question: str, option: str, given: str | None, read: Read) -> Any:
        """Return one answer that may be left out."""
        from evsyn.wording.new_questions import MAY_BE_LEFT

        return self.one(question + MAY_BE_LEFT, option, given, read, needed=False)

    def choice(
        self,
        question: str,
        option: str,
        given: str | None,
        words: Mapping[str, str],
        *,
        default: str | None = None,
        needed: bool = True,
        several: bool = False,
        used: Collection[str] = (),
    ) -> Any:
        """Return one of some words, or several; a person sees them with their meanings.

        Each word keeps its number while some are ``used`` up.
        """
        from evsyn.extraction.starting import answers
        from evsyn.wording import new_questions as say

        if given is None and self.asks:
            self._offer(words, used)
        read = answers.several(words) if several else answers.among(words, used=used)
        asked = question
        if self.asks:
            asked += say.BY_NUMBER + ("" if needed else say.MAY_BE_LEFT)
        return self.one(asked, option, given, read, default=default, needed=needed)

    def several(
        self,
        heading: str,
        question: str,
        option: str,
        given: Sequence[str],
        read: Callable[[str], tuple[str, Any]],
        offered: Mapping[str, Any],
        *,
        needed: bool = True,
    ) -> dict[str, Any]:
        """Return parts of a plan by name: those of an option, or those offered, or those asked for.

        Those offered are examples, and stand where nobody says otherwise only if one is needed.

        Parameters
        ----------
        heading : str
            What the parts answer.
        question : str
            What is asked for each of them, where those offered are not taken.
        option : str
            The option that gives one of them.
        given : sequence of str
            What it holds.
        read : callable
            Takes one line and returns name and part.
        offered : mapping
            The parts offered.
        needed : bool
            Whether there must be one.
        """
        from evsyn.extraction.starting import answers
        from evsyn.wording import new_questions as say

        if given:
            return dict(self.each(option, given, read))
        self.tell(["", heading, say.EXAMPLES, *say.listed(offered)])
        # What is asked about, so that answers to the parts of one kind are not taken for another's.
        self.about = heading
        if self.yes(say.OFFERED, None, default=needed):
            self.about = ""
            return dict(offered)
        found: dict[str, Any] = {}
        while self.asks:
            wanted = needed and not found
            asked = question if wanted else question + say.NO_MORE
            one = self.one(
                asked, option, None, read if wanted else answers.or_no_more(read), needed=wanted
            )
            if one is None:
                break
            found[one[0]] = one[1]
        self.about = ""
        return found

    def yes(self, question: str, given: bool | None, *, default: bool) -> bool:
        """Return whether something is so."""
        if given is not None or not self.asks:
            return default if given is None else given
        from evsyn.extraction.starting import answers
        from evsyn.wording.new_questions import YES_OR_NO

        short = "y" if default else "n"
        return bool(self.one(question + YES_OR_NO, "", None, answers.yes_or_no, default=short))

    def each(self, option: str, given: Iterable[str], read: Read) -> list[Any]:
        """Return what each use of an option gives; what cannot be right is kept as a fault."""
        found = [self.read(option, one, read) for one in given]
        return [one for one in found if one is not None]

    def read(self, option: str, given: str, read: Read) -> Any:
        """Return what an option gives; one that cannot be right is kept as a fault."""
        try:
            return read(given)
        except ValueError as reason:
            self._troubles.append(f"{option}: {reason}")
            return None

    def missing(self, option: str, what: str) -> None:
        """Note that an answer is needed and nobody is asked."""
        self._troubles.append(f"{option} is missing: {what[0].lower()}{what[1:]}")

    def failed(self, option: str) -> bool:
        """Return whether an option was given that cannot be right."""
        return any(one.startswith(f"{option}:") for one in self._troubles)

    def tell(self, lines: Sequence[str]) -> None:
        """Say something to a person who is asked."""
        if self.asks:
            for line in lines:
                click.echo(line)

    def settle_faults(self, findings: "Sequence[Finding]") -> None:
        """Stop if a new file would be faulty; a person may have it written all the same."""
        from evsyn.terms import Severity
        from evsyn.wording import new_questions as say

        faults = [one for one in findings if one.severity is Severity.FAULT]
        if not faults:
            return
        told = [f"  {one.source.key_path}: {one.message}. {one.cure}" for one in faults]
        if not self.asks:
            refuse("\n".join([say.NOT_WRITTEN, *told]))
        self.tell(["", say.FAULTY, *told])
        if not self.yes(say.WRITE_FAULTY, None, default=False):
            self.refused()

    def refused(self) -> NoReturn:
        """Stop, after a person would not write the file."""
        from evsyn.wording.new_questions import NOT_WRITTEN

        refuse(NOT_WRITTEN)

    def settle(self) -> None:
        """Stop, with every trouble in one list, if there was any."""
        from evsyn.wording.new_questions import NOT_WRITTEN

        if self._troubles:
            refuse("\n".join([NOT_WRITTEN, *(f"  {one}" for one in dict.fromkeys(self._troubles))]))

    def _offer(self, words: Mapping[str, str], used: Collection[str]) -> None:
        """Show words to choose from, each with its number and its meaning."""
        width = max((len(word) for word in words), default=0)
        self.tell([""])
        self.tell([
            f"  {place:2} {word:{width}}  {meaning}"
            for place, (word, meaning) in enumerate(words.items(), 1)
            if word not in used
        ])  # fmt: skip

    def _written(self, question: str, default: str | None, needed: bool) -> str:
        if default is None and not needed:
            return str(click.prompt(question, default="", show_default=False))
        return str(click.prompt(question, default=default))


def _sentence(reason: str) -> str:
    said = reason[0].upper() + reason[1:]
    return said if said.endswith((".", "?")) else f"{said}."
