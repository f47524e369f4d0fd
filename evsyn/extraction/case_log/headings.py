"""Which column of a log holds what."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from difflib import get_close_matches

from evsyn.extraction.case_log.raw_table import RawTable
from evsyn.extraction.case_log.refused import LONGEST_SHOWN, column_path, fault, note, short
from evsyn.extraction.case_log.spelling import spelled
from evsyn.extraction.case_log.things import MONTH, REACHED, Thing
from evsyn.extraction.faults import nearest
from evsyn.extraction.unit import CaseLog
from evsyn.terms import Finding, Source

#: Without these a row cannot be placed.
NEEDED = (MONTH, REACHED)


@dataclass(frozen=True, slots=True)
class Columns:
    """The columns of a log that are read.

    Parameters
    ----------
    places : dict
        Place of the column of each thing, counted from 0, by the thing's name.
    of_outcomes : dict
        Place of the column of each outcome that has one, by the outcome's name.
    """

    places: dict[str, int]
    of_outcomes: dict[str, int]


def columns_of(
    table: RawTable, known: Mapping[str, Thing], log: CaseLog, labels: Mapping[str, str]
) -> tuple[Columns, list[Finding]]:
    """Find the column of each thing and of each outcome.

    Parameters
    ----------
    table : RawTable
        The table as it stands in the file.
    known : mapping
        What a log may hold, by name.
    log : CaseLog
        What the unit file says of the log.
    labels : mapping
        Label of each outcome of the plan.

    Returns
    -------
    tuple
        The columns, and a fault for each heading that is missing, twice there, or needed, with a
        note on those that are not read.
    """
    at: dict[str, list[int]] = {}
    for place, heading in enumerate(table.headings):
        if heading.strip():
            at.setdefault(spelled(heading), []).append(place)
    findings: list[Finding] = []
    places: dict[str, int] = {}
    for name, heading in log.columns.items():
        source = log.source(f"columns.{name}")
        if name not in known:
            message = f"'{name}' is nothing that a column of a log holds under this plan"
            findings.append(fault(source, message, nearest(name, list(known))))
            continue
        findings += _missing(heading, at, table, source)
        if spelled(heading) in at:
            places[name] = at[spelled(heading)][0]
    findings += _shared(places, log, table)
    taken = set(places.values())
    for name, thing in known.items():
        for heading in (spelled(name), spelled(thing.label)):
            if name not in log.columns and heading in at and at[heading][0] not in taken:
                places[name] = at[heading][0]
                taken.add(places[name])
                break
    of_outcomes: dict[str, int] = {}
    for outcome, one in log.outcomes.items():
        if one.column is not None:
            findings += _missing(one.column, at, table, one.source("column"))
        headings = [outcome, labels.get(outcome, outcome)] if one.column is None else [one.column]
        free = [spelled(heading) for heading in headings if spelled(heading) in at]
        if free and one.reached is None:
            of_outcomes[outcome] = at[free[0]][0]
    read = {*places.values(), *of_outcomes.values()}
    findings += _doubled(read, at, table)
    findings += _needed(places, known, log, table)
    if not set(NEEDED).isdisjoint(places):
        # Without either, the first case may stand where headings should, and is not repeated.
        findings += _unread(read, table, [name for name in known if name not in places])
    return Columns(places, of_outcomes), findings


def heading_source(table: RawTable, place: int, row: int | None = None) -> Source:
    """Return the place of a column, in its row of headings or in another."""
    line = table.heading_row if row is None else row
    return Source(table.file, line, column_path(table.headings[place]))


def _missing(
    heading: str, at: Mapping[str, list[int]], table: RawTable, source: Source
) -> Iterator[Finding]:
    if spelled(heading) not in at:
        message = f"{table.file} has no column headed '{heading}'"
        near = _near(heading, [one for one in table.headings if len(one) <= LONGEST_SHOWN])
        cure = f"Did you mean '{near}'?" if near else "Compare it with the headings of the log."
        yield fault(source, message, cure)


def _near(word: str, known: Iterable[str]) -> str:
    """Return the known word that is nearly this one; empty where none is."""
    by_spelling = {spelled(one): one for one in known if one.strip()}
    close = get_close_matches(spelled(word), by_spelling, n=1, cutoff=0.7)
    return by_spelling[close[0]] if close else ""


def _shared(places: Mapping[str, int], log: CaseLog, table: RawTable) -> Iterator[Finding]:
    first: dict[int, str] = {}
    for name, place in places.items():
        other = first.setdefault(place, name)
        if other != name:
            message = f"the column {short(table.headings[place])} is given for both '{other}' "
            message += f"and '{name}'"
            yield fault(log.source(f"columns.{name}"), message, "Give each a column of its own.")


def _doubled(read: set[int], at: Mapping[str, list[int]], table: RawTable) -> Iterator[Finding]:
    for same in at.values():
        if len(same) > 1 and read & set(same):
            message = f"{len(same)} columns are headed {short(table.headings[same[0]])}"
            yield fault(heading_source(table, same[1]), message, "Rename all but one.")


def _needed(
    places: Mapping[str, int], known: Mapping[str, Thing], log: CaseLog, table: RawTable
) -> Iterator[Finding]:
    for name in NEEDED:
        if name not in places and name not in log.columns:
            message = f"the log has no column '{name}' ({known[name].label} of each case)"
            cure = f"Name its heading in the unit file: case_log, columns, {name}."
            yield fault(Source(table.file, table.heading_row), message, cure)


def _unread(read: set[int], table: RawTable, missing: Sequence[str]) -> Iterator[Finding]:
    unread = [
        place
        for place, heading in enumerate(table.headings)
        if place not in read and (heading.strip() or any(map(_is_filled, table.column(place))))
    ]
    if unread:
        named = ", ".join(
            short(table.headings[place]) if table.headings[place].strip() else "one without heading"
            for place in unread
        )
        many = "columns" if len(unread) > 1 else "column"
        offered = {near: table.headings[place] for place in unread
                   if (near := _near(table.headings[place], missing))}  # fmt: skip
        near = "".join(f" Is {short(heading)} '{name}'?" for name, heading in offered.items())
        cure = "If it should be, name its heading in the unit file: case_log, columns"
        free = f" (columns may be: {', '.join(missing)})" if missing else ""
        cure = f"{cure}{free}.{near}"
        yield note(Source(table.file, table.heading_row), f"not read: {many} {named}", cure)


def _is_filled(value: object) -> bool:
    return value not in (None, "")
