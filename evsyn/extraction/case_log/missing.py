"""What a log does not tell of every case: by row, with what that costs."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from evsyn.extraction.case_log.case import Case
from evsyn.extraction.case_log.headings import Columns
from evsyn.extraction.case_log.refused import note, rows_words
from evsyn.extraction.case_log.settings import OutcomeWay
from evsyn.extraction.case_log.things import UNKNOWN
from evsyn.extraction.flow.sets import STAGE
from evsyn.terms import Finding, Source

_COUNTED = "counted as unknown, best and worst case"


@dataclass(frozen=True, slots=True)
class Missing:
    """Something that is not known of every case.

    Parameters
    ----------
    name : str
        The thing.
    message : str
        What is not known, behind the rows.
    rows : tuple of int
        The rows that do not tell it.
    left_out : str
        What is left out of the audit until it is filled.
    """

    name: str
    message: str
    rows: tuple[int, ...]
    left_out: str


def missing_notes(
    file: str,
    missing: Sequence[Missing],
    cases: Sequence[Case],
    ways: Sequence[OutcomeWay],
    columns: Columns,
) -> Iterator[Finding]:
    """Yield a note on each thing, and on each outcome, that is not known of some cases.

    An outcome is counted all the same. Where it is not known of the very rows of which its step is
    not, one note says both.

    Parameters
    ----------
    file : str
        Name of the log.
    missing : sequence of Missing
        What is left out.
    cases : sequence of Case
        The cases.
    ways : sequence of OutcomeWay
        How each outcome is read.
    columns : Columns
        The columns that are read.
    """
    unknown: dict[str, tuple[int, ...]] = {}
    for way in ways:
        rows = tuple(c.source.line for c in cases if c.outcomes.get(way.name) == UNKNOWN)
        if rows:
            unknown[way.name] = rows
    steps = {way.name: _steps(way, columns) for way in ways}
    for one in missing:
        told = [n for n, rows in unknown.items() if rows == one.rows and one.name in steps[n]]
        for name in told:
            del unknown[name]
        yield note(
            Source(file, one.rows[0]),
            f"{rows_words(one.rows)}: {one.message}{_as_outcome(one.name, told)}",
            f"Until {_filled(one.rows)}, {one.left_out} {_are(one.left_out)} left out.",
        )
    for name, rows in unknown.items():
        message = f"{rows_words(rows)}: {name} unknown; {_COUNTED}"
        cure = "Fill in the cells where the notes tell."
        yield note(Source(file, rows[0]), message, cure)


def _steps(way: OutcomeWay, columns: Columns) -> frozenset[str]:
    """Return the things by which an outcome is told, and those whose column it shares."""
    told = frozenset() if way.counted is None else way.counted.at_most.attributes - {STAGE}
    return told | {name for name, place in columns.places.items() if place == way.place}


def _as_outcome(name: str, outcomes: Iterable[str]) -> str:
    """Say that outcomes are counted; only those of another name are named."""
    others = [one for one in outcomes if one != name]
    if others:
        return f"; as an outcome ({', '.join(others)}) {_COUNTED}"
    return f"; as an outcome {_COUNTED}" if list(outcomes) else ""


def _filled(rows: Sequence[int]) -> str:
    return "it is filled in" if len(rows) == 1 else "they are filled in"


def _are(what: str) -> str:
    return "are" if what.startswith("the ends") else "is"
