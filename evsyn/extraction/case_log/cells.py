"""Read the cells of a column in the plan's words."""

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from evsyn.extraction.case_log.headings import heading_source
from evsyn.extraction.case_log.months import month_of
from evsyn.extraction.case_log.raw_table import RawTable, RawValue
from evsyn.extraction.case_log.refused import SHOWN_ROWS, fault, rows_words, short
from evsyn.extraction.case_log.spelling import cell_text, spelled
from evsyn.extraction.case_log.things import UNKNOWN, Kind, Thing
from evsyn.extraction.case_log.unknown_words import UnknownWord
from evsyn.terms import Finding

#: What a cell says once it is read; ``None`` where it is empty.
Said = str | int | float | tuple[str, ...] | None
MOST_DIGITS = 6
_NOT_A = {Kind.MONTH: "no month", Kind.WHOLE: "no whole number", Kind.NUMBER: "no number"}


@dataclass(frozen=True, slots=True)
class Unread:
    """A cell that says nothing that is understood.

    Parameters
    ----------
    text : str
        The word that is not known.
    """

    text: str


def read_column(
    table: RawTable, place: int, thing: Thing, words: Mapping[str, str]
) -> tuple[list[Said], list[Finding], list[UnknownWord]]:
    """Read one column.

    Parameters
    ----------
    table : RawTable
        The table.
    place : int
        Place of the column, counted from 0.
    thing : Thing
        What it holds.
    words : mapping
        The log's own words, and the names they stand for.

    Returns
    -------
    tuple
        What each cell says, ``None`` where it is empty or not understood; a fault if any is no
        month or number; and the words that are not known.
    """
    meant = {spelled(word): spelled(name) for word, name in words.items()}
    said = [_read(value, thing, meant) for value in table.column(place)]
    unread = [
        (row.number, one.text)
        for row, one in zip(table.rows, said, strict=True)
        if isinstance(one, Unread)
    ]
    findings: list[Finding] = []
    unknown: list[UnknownWord] = []
    if unread and thing.kind in (Kind.WORD, Kind.WORDS):
        unknown += _unknown(place, thing, unread)
    elif unread:
        findings += _not_understood(table, place, thing, unread)
    return [None if isinstance(one, Unread) else one for one in said], findings, unknown


def _read(value: RawValue, thing: Thing, meant: Mapping[str, str]) -> Said | Unread:
    text = cell_text(value)
    if not text:
        return None
    match thing.kind:
        case Kind.MONTH:
            return month_of(value) or _month_by_name(text, meant) or Unread(text)
        case Kind.WORD:
            return _word(text, thing, meant)
        case Kind.WORDS:
            return _several(text, thing, meant)
        case Kind.TEXT:
            return text
        case _:
            return _number(text, thing.kind)


def _month_by_name(text: str, meant: Mapping[str, str]) -> str | None:
    name = meant.get(spelled(text), "")
    return month_of(f"{name[:4]}-{name[4:]}")


def _word(text: str, thing: Thing, meant: Mapping[str, str]) -> str | Unread:
    plain = spelled(text)
    own = thing.spellings.get(meant.get(plain, ""))
    return own or thing.spellings.get(plain) or Unread(text)


def _several(text: str, thing: Thing, meant: Mapping[str, str]) -> tuple[str, ...] | None | Unread:
    found = [_word(one.strip(), thing, meant) for one in text.split(";") if one.strip()]
    for one in found:
        if isinstance(one, Unread):
            return one
    named = tuple(one for one in found if isinstance(one, str))
    return None if UNKNOWN in named or not named else named


def _number(text: str, kind: Kind) -> float | None | Unread:
    if spelled(text) in (UNKNOWN, "notstated", "notknown", "?"):
        return None
    if kind is Kind.WHOLE:
        is_whole = text.isascii() and text.isdigit() and len(text) <= MOST_DIGITS
        return int(text) if is_whole else Unread(text)
    try:
        number = float(text.replace(",", "."))
    except ValueError:
        return Unread(text)
    return number if math.isfinite(number) else Unread(text)


def _not_understood(
    table: RawTable, place: int, thing: Thing, unread: Sequence[tuple[int, str]]
) -> Iterator[Finding]:
    """Yield a fault on cells that hold no month or no number."""
    rows = [row for row, _ in unread]
    hold = "holds" if len(rows) == 1 else "hold"
    where = f"column {short(table.headings[place])}, {rows_words(rows)} {hold}"
    source = heading_source(table, place, rows[0])
    if thing.kind is Kind.MONTH and any(isinstance(v, date) for v in table.column(place)):
        message = f"{where} a day, where a month is asked for"
    else:
        texts = list(dict.fromkeys(text for _, text in unread))
        shown = [short(text) for text in texts[:SHOWN_ROWS]]
        more = " and others" if len(texts) > SHOWN_ROWS else ""
        message = f"{where} {', '.join(shown)}{more}: {_NOT_A[thing.kind]}"
    cure = "Write it in digits, or leave the cell empty."
    if thing.kind is Kind.MONTH:
        cure = "Write the month alone, as 2024-03, 03/2024 or Mar 2024."
    yield fault(source, message, cure)


def _unknown(place: int, thing: Thing, unread: Sequence[tuple[int, str]]) -> Iterator[UnknownWord]:
    """Yield each distinct word once, with its rows; a word is the same in any spelling."""
    rows: dict[str, list[int]] = {}
    texts: dict[str, str] = {}
    for row, text in unread:
        texts.setdefault(spelled(text), text)
        rows.setdefault(spelled(text), []).append(row)
    for word, text in texts.items():
        yield UnknownWord(text, place, thing, tuple(rows[word]))
