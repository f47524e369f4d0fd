"""Read the cells of a column in the plan's words."""

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from evsyn.extraction.case_log.headings import heading_source
from evsyn.extraction.case_log.months import month_of
from evsyn.extraction.case_log.raw_table import RawTable, RawValue
from evsyn.extraction.case_log.refused import fault, rows_words, short
from evsyn.extraction.case_log.spelling import cell_text, spelled
from evsyn.extraction.case_log.things import UNKNOWN, Kind, Thing
from evsyn.extraction.faults import nearest
from evsyn.terms import Finding

#: What a cell says once it is read; ``None`` where it is empty.
Said = str | int | float | tuple[str, ...] | None
MOST_DIGITS = 6


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
) -> tuple[list[Said], list[Finding]]:
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
        What each cell says, ``None`` where it is empty or not understood, and one fault if any is
        not understood.
    """
    meant = {spelled(word): spelled(name) for word, name in words.items()}
    said = [_read(value, thing, meant) for value in table.column(place)]
    unread = [
        (row.number, one.text)
        for row, one in zip(table.rows, said, strict=True)
        if isinstance(one, Unread)
    ]
    own = [word for word, name in words.items() if spelled(name) in thing.spellings]
    findings = list(_not_understood(table, place, thing, unread, own)) if unread else []
    return [None if isinstance(one, Unread) else one for one in said], findings


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
    table: RawTable,
    place: int,
    thing: Thing,
    unread: Sequence[tuple[int, str]],
    own: Sequence[str],
) -> Iterator[Finding]:
    rows, texts = [row for row, _ in unread], [text for _, text in unread]
    hold = "holds" if len(rows) == 1 else "hold"
    heading = short(table.headings[place])
    where = f"column {heading}, {rows_words(rows)} {hold}"
    source = heading_source(table, place, rows[0])
    match thing.kind:
        case Kind.MONTH:
            days = any(isinstance(value, date) for value in table.column(place))
            what = "a day, where a month is asked for" if days else "no month"
            yield fault(source, f"{where} {what}", "Write the month alone, as 2024-03.")
        case Kind.WHOLE | Kind.NUMBER:
            what = "no whole number" if thing.kind is Kind.WHOLE else "no number"
            yield fault(source, f"{where} {what}", "Write it in digits, or leave the cell empty.")
        case _:
            known = list(dict.fromkeys((*own, *thing.spellings.values())))
            others = " and other words" if len(set(texts)) > 1 else ""
            cure = (
                f"{nearest(texts[0], known)} Correct the log, or say what the word stands for in "
            )
            cure += "the unit file: case_log, words."
            yield fault(source, f"{where} {short(texts[0])}{others}: not a known word", cure)
