"""The words of a log that nobody knows, each once, as lines that can be pasted and completed."""

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from difflib import get_close_matches

from evsyn.extraction.case_log.headings import heading_source
from evsyn.extraction.case_log.raw_table import RawTable
from evsyn.extraction.case_log.refused import LONGEST_SHOWN, fault, rows_words, short
from evsyn.extraction.case_log.things import REACHED, Kind, Thing
from evsyn.extraction.plan import Plan
from evsyn.terms import Finding

#: Words and beginnings that turn a meaning round, in the languages of the months that are read.
_NEGATING = """
not no never none nil without failed fail fails failure unable cannot couldn't didn't wasn't neither
nor aborted abandoned declined refused nicht kein keine keinen ohne nie pas sans jamais sin nunca
senza mai non
"""
_NEGATIONS = frozenset(_NEGATING.split())
_TURNED_ROUND = ("un", "non", "in", "im", "de", "dis", "mis")
_BETWEEN_TWO = re.compile(r"[+&,/]|\b(?:and|then|und|et|y|e)\b", re.IGNORECASE)
#: A key of the unit file that needs no quotes; yes, no and the like would be no text.
_PLAIN_KEY = re.compile(r"[^\W\d_](?:[\w .,()<>/+=&-]*[\w.()<>+])?")
_RESERVED = frozenset(("yes", "no", "true", "false", "null", "on", "off", "y", "n"))


@dataclass(frozen=True, slots=True)
class UnknownWord:
    """A word of one column that is not known.

    Parameters
    ----------
    text : str
        The word as the log has it.
    place : int
        Place of the column, counted from 0.
    thing : Thing
        What the column holds.
    rows : tuple of int
        The rows that hold it.
    """

    text: str
    place: int
    thing: Thing
    rows: tuple[int, ...]


def unknown_word_faults(
    table: RawTable, found: Sequence[UnknownWord], own: Mapping[str, str], plan: Plan
) -> Iterator[Finding]:
    """Yield one fault on all words that are not known, and one for each text too long to repeat.

    Parameters
    ----------
    table : RawTable
        The table.
    found : sequence of UnknownWord
        What is not known.
    own : mapping
        The log's own words that are known already, and the names they stand for.
    plan : Plan
        The plan of the review.
    """
    by_text: dict[str, list[UnknownWord]] = {}
    for one in found:
        text = " ".join(one.text.split())
        if len(text) > LONGEST_SHOWN:
            heading, rows = short(table.headings[one.place]), rows_words(one.rows)
            message = f"column {heading}, {rows}: a long text, where a word is asked for"
            cure = f"Write one of these: {', '.join(_explained(one.thing, plan))}."
            yield fault(heading_source(table, one.place, one.rows[0]), message, cure)
        else:
            by_text.setdefault(text, []).append(one)
    if not by_text:
        return
    places = dict.fromkeys(one.place for listed in by_text.values() for one in listed)
    columns = ", ".join(short(table.headings[place]) for place in places)
    many = f"{len(by_text)} words are" if len(by_text) > 1 else "one word is"
    message = f"{many} not known, in column{'s' if len(places) > 1 else ''} {columns}"
    cure = (
        "Correct the log; or add these lines under 'case_log' in the unit file (below 'words:' if "
        "that stands there), each with the name it stands for in place of the points"
    )
    lines = ["words:", *(_line(text, listed, own, plan) for text, listed in by_text.items())]
    first = next(iter(by_text.values()))[0]
    source = heading_source(table, first.place, first.rows[0])
    yield fault(source, message, "\n".join((f"{cure}:", *lines)))


def _line(text: str, listed: Iterable[UnknownWord], own: Mapping[str, str], plan: Plan) -> str:
    known: dict[str, None] = {}
    near: str | None = None
    rows: list[int] = []
    several = False
    for one in listed:
        rows += one.rows
        known |= dict.fromkeys(_explained(one.thing, plan))
        near = near or nearly(text, _offered(one.thing, own))
        parts = [part for part in _BETWEEN_TWO.split(text) if part.strip()]
        several = several or (one.thing.kind is Kind.WORDS and len(parts) > 1)
    said = [f"row {rows[0]}" if len(rows) == 1 else f"{len(rows)} rows, first row {min(rows)}"]
    if several:
        said.append("write ';' between two ends")
    # Two ends in one cell are near to either, and are neither.
    if near is not None and not several:
        said.append(f"did you mean {near}?")
    else:
        said.append(f"one of {', '.join(known)}")
    return f"  {_key(text)}: ...   # {'; '.join(said)}"


def _offered(thing: Thing, own: Mapping[str, str]) -> list[str]:
    words = [word for word, name in own.items() if name in thing.spellings.values()]
    return list(dict.fromkeys((*words, *thing.spellings.values())))


def _key(text: str) -> str:
    is_plain = _PLAIN_KEY.fullmatch(text) and text.casefold() not in _RESERVED
    return text if is_plain else "'" + text.replace("'", "''") + "'"


def nearly(text: str, known: Iterable[str]) -> str | None:
    """Return the known word that is nearly this one, if neither turns the other round.

    Examples
    --------
    >>> nearly("atempted", ["attempted"]), nearly("not attempted", ["attempted"])
    ('attempted', None)
    """
    lowered = {word.casefold(): word for word in known}
    close = get_close_matches(text.casefold(), lowered, n=1, cutoff=0.6)
    if not close or negates(text) != negates(lowered[close[0]]):
        return None
    first, second = _bare(text), _bare(close[0])
    for beginning in _TURNED_ROUND:
        if beginning + first == second or beginning + second == first:
            return None
    # "unplcaed": what begins by turning round and does not on the other side.
    if first.startswith(_TURNED_ROUND[:2]) != second.startswith(_TURNED_ROUND[:2]):
        return None
    return lowered[close[0]]


def negates(text: str) -> bool:
    """Whether a word of a text says that something did not happen."""
    return not _NEGATIONS.isdisjoint(re.findall(r"[^\W\d_]+(?:'t)?", text.casefold()))


def _bare(text: str) -> str:
    return re.sub(r"[\W_]+", "", text.casefold())


def _explained(thing: Thing, plan: Plan) -> list[str]:
    """Return the names that a column knows; of stages, which did not follow."""
    if thing.name == REACHED:
        after = dict(zip(plan.flow, plan.flow[1:], strict=False))
        return [f"{name} (not {after[name]})" if name in after else name for name in plan.flow]
    return [
        f"{name} ({thing.meanings[name]})" if name in thing.meanings else name
        for name in dict.fromkeys(thing.spellings.values())
    ]
