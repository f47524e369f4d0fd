"""What keeps a log from being read, or from being counted, and how it is told."""

from collections.abc import Sequence

from evsyn.terms import Finding, Severity, Source

RULE = "case-log"
WHY = (
    "The log of cases must be readable, speak the plan's words, and hold no row that no case "
    "could be: a count made from anything else would be a guess."
)
SHOWN_ROWS = 3
#: A longer text may be anything, a note on a patient included, and is not repeated.
LONGEST_SHOWN = 30


class RefusedError(Exception):
    """Raised inside this room when a file cannot be read; holds the fault that says why."""

    def __init__(self, message: str, cure: str, line: int = 0) -> None:
        super().__init__(message)
        self.message, self.cure, self.line = message, cure, line

    def of(self, file: str) -> Finding:
        """Return the fault, of a file."""
        return fault(Source(file, self.line), self.message, self.cure)


def fault(source: Source, message: str, cure: str) -> Finding:
    """Return a fault of the log."""
    return Finding(RULE, Severity.FAULT, source, message, cure)


def doubt(source: Source, message: str, cure: str) -> Finding:
    """Return a doubt about the log."""
    return Finding(RULE, Severity.DOUBT, source, message, cure)


def note(source: Source, message: str, cure: str) -> Finding:
    """Return a note on the log."""
    return Finding(RULE, Severity.NOTE, source, message, cure)


def rows_words(rows: Sequence[int]) -> str:
    """Write the first few rows, as 'rows 4, 9, 12 and 5 more'.

    Examples
    --------
    >>> rows_words([4]), rows_words([4, 9]), rows_words([4, 9, 12, 13, 20])
    ('row 4', 'rows 4 and 9', 'rows 4, 9, 12 and 2 more')
    """
    if len(rows) == 1:
        return f"row {rows[0]}"
    first, more = list(map(str, rows[:SHOWN_ROWS])), len(rows) - SHOWN_ROWS
    if more > 0:
        return f"rows {', '.join(first)} and {more} more"
    return f"rows {', '.join(first[:-1])} and {first[-1]}"


def short(text: str) -> str:
    """Return a text in quotes if it is short, and else say only that it is long."""
    plain = " ".join(text.split())
    return f"'{plain}'" if len(plain) <= LONGEST_SHOWN else "a long text"


def column_path(heading: str) -> str:
    """Return how a column is named as the place of a finding."""
    plain = " ".join(heading.split())
    return plain if len(plain) <= LONGEST_SHOWN else f"{plain[:LONGEST_SHOWN]}..."
