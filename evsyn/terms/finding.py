"""What a check found in a file: how grave, where, what, and what to do."""

from dataclasses import dataclass, replace
from enum import StrEnum
from typing import Self

from evsyn.terms.source import Source


class Severity(StrEnum):
    """How grave a finding is.

    A ``FAULT`` cannot be read or cannot be true: nothing is pooled. A ``DOUBT`` is pooled, and
    counted on every output. A ``NOTE`` is worth knowing and asks for nothing.
    """

    FAULT = "fault"
    DOUBT = "doubt"
    NOTE = "note"


@dataclass(frozen=True, slots=True)
class Answer:
    """A reader's reply to a doubt: why the value stands, who says so, and when."""

    reason: str
    by: str
    on: str


@dataclass(frozen=True, slots=True)
class Finding:
    """One thing a check found.

    Parameters
    ----------
    rule : str
        Name of the check, as used in an ``answers`` entry.
    severity : Severity
        How grave it is.
    source : Source
        File and line.
    message : str
        What is wrong, in a sentence.
    cure : str
        What to do about it, in a sentence.
    answer : Answer or None
        The reply written in the file, where there is one; an answered doubt stays visible.
    """

    rule: str
    severity: Severity
    source: Source
    message: str
    cure: str
    answer: Answer | None = None

    @property
    def is_open(self) -> bool:
        """Whether this is a doubt nobody has answered."""
        return self.severity is Severity.DOUBT and self.answer is None

    def answered(self, answer: Answer) -> Self:
        """Return the same finding with the reader's reply attached."""
        return replace(self, answer=answer)

    def to_dict(self) -> dict[str, object]:
        """Return the finding as plain data for JSON."""
        reply = self.answer
        return {
            "rule": self.rule,
            "severity": str(self.severity),
            "message": self.message,
            "cure": self.cure,
            "source": self.source.to_dict(),
            "answer": None
            if reply is None
            else {"reason": reply.reason, "by": reply.by, "on": reply.on},
        }
