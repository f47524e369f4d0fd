"""Refuse a case log that could tell who somebody is, before anything else of it is read.

A message names a column by its letter and never tells a value or a row: it may be copied into a
letter, and the row of a log may itself be known.
"""

from collections.abc import Iterator, Mapping

from evsyn.extraction.case_log.raw_table import RawFile, RawTable, Remark
from evsyn.extraction.identifiers.cell import cell_likenesses
from evsyn.extraction.identifiers.column import column_likeness, is_ordinary_but_for_cells
from evsyn.extraction.identifiers.column_words import column_name, sheet_name
from evsyn.extraction.identifiers.likeness import Likeness, gravest
from evsyn.extraction.identifiers.operators import roles_in
from evsyn.extraction.identifiers.plain_text import plain_text
from evsyn.extraction.identifiers.split_numbers import split_likenesses
from evsyn.terms import Finding, Severity, Source

NAME = "identifier"


def screen(
    raw: RawFile, roles: Mapping[str, str], words: Mapping[str, str] | None = None
) -> tuple[Finding, ...]:
    """Return a fault for each column, and for each text beside the tables, that looks identifying.

    Parameters
    ----------
    raw : RawFile
        All that the file holds, uninterpreted; other sheets are screened like the table.
    roles : mapping of str to str
        Roles of the plan and their words: all that may stand in the column of the operator.
    words : mapping of str to str, optional
        The log's own words, and the names they stand for; those for a role may stand there too.

    Returns
    -------
    tuple of Finding
        Empty when nothing was found, which is no proof that nothing is there.
    """
    roles = {**roles, **roles_in(words or {}, roles)}
    found = list(_of_table(raw.table, "", roles))
    for place, other in enumerate(raw.others, start=1):
        found += _of_table(other, sheet_name(other.sheet, place), roles)
    found += _of_remarks(raw)
    return tuple(found)


def _of_table(table: RawTable, sheet: str, roles: Mapping[str, str]) -> Iterator[Finding]:
    split = split_likenesses(table)
    for place, heading in enumerate(table.headings):
        looks = {column_likeness(heading, table.column(place), roles), split.get(place)}
        likeness = gravest({look for look in looks if look is not None})
        if likeness is None:
            continue
        named = column_name(place, heading, likeness, hidden=place in table.hidden)
        cure = _cure(likeness, roles)
        if place not in split and is_ordinary_but_for_cells(heading, table.column(place), roles):
            # Where is not told closer: the row of a case may itself be known.
            named, cure = f"one cell or more of {named}", likeness.cure_of_cells or cure
        where = f"{sheet}, {named}" if sheet else named
        yield _fault(Source(table.file, table.heading_row), where, likeness, cure)


def _of_remarks(raw: RawFile) -> Iterator[Finding]:
    names = [Remark("the name of the sheet that is read", raw.table.sheet)]
    names += [
        Remark(f"the name of sheet {place} of the others", other.sheet)
        for place, other in enumerate(raw.others, start=1)
    ]
    looks = {
        (remark.where, gravest(cell_likenesses(plain_text(remark.text)))): None
        for remark in (*raw.remarks, *names)
    }
    for where, likeness in looks:
        if likeness is not None:
            yield _fault(Source(raw.table.file, 0), where, likeness, "Delete that text.")


def _fault(source: Source, where: str, likeness: Likeness, cure: str) -> Finding:
    message = f"{where} looks like it holds {likeness.words}"
    return Finding(NAME, Severity.FAULT, source, message, cure)


def _cure(likeness: Likeness, roles: Mapping[str, str]) -> str:
    if likeness is not Likeness.OPERATOR:
        return likeness.cure
    known = ", ".join(roles)
    return f"Write the role alone, one of: {known}." if known else "Write the role, as surgeon."
