"""Read one answer as a person writes it; a ``ValueError`` says why it cannot be right."""

import re
from collections.abc import Callable, Collection, Mapping, Sequence
from typing import Any

from pydantic import TypeAdapter, ValidationError

from evsyn.extraction.faults import nearest
from evsyn.extraction.percentages import printed_percentage
from evsyn.extraction.record import Day, Month, Name
from evsyn.extraction.references.found_by import doi_in, pmid_in, pmid_of_address
from evsyn.extraction.starting.dates import is_two_ways, plain_date

Read = Callable[[str], Any]
#: Words to choose from, with or without what each is called.
Words = Sequence[str] | Mapping[str, str]

_COUNT = re.compile(r"([0-9]+) *(?:/|of|out of| ) *([0-9]+)")
_SPAN = re.compile(r"(\S+)(?: *(?:to|-|–|,) *|\s+)(\S+)")
_SPAN_NAMED = re.compile(r"(\S.*\S) +(?:to|-|–) +(\S.*\S)")
_NO_MORE = {"n", "no", "none"}
_NAME: TypeAdapter[str] = TypeAdapter(Name)
_DAY: TypeAdapter[str] = TypeAdapter(Day)
_MONTH: TypeAdapter[str] = TypeAdapter(Month)


def text(written: str) -> str:
    """Return any text that is not empty."""
    if not written.strip():
        raise ValueError("something must stand here")
    if len(written) > 4000:
        raise ValueError("it is too long")
    return written.strip()


def name(written: str) -> str:
    """Return a short name."""
    said = "a name has letters, digits, '_' and '-', and no spaces"
    return str(_valid(_NAME, written.strip(), said))


def initials(written: str) -> str:
    """Return who read something; it holds a letter at least."""
    if not any(one.isalpha() for one in written):
        raise ValueError(f"'{written.strip()}' holds no letter; write initials, as QF")
    return text(written)


def doi(written: str) -> str:
    """Return a DOI, taken out of an address where it stands in one."""
    found = doi_in(written)
    if not found:
        raise ValueError(f"'{written.strip()}' holds no DOI; it begins with 10., as 10.1000/abc")
    return found


def pmid(written: str) -> str:
    """Return a PubMed number, taken out of an address where it stands in one."""
    found = pmid_in(written) or pmid_of_address(written)
    if not found:
        raise ValueError(f"'{written.strip()}' is not a PubMed number; it has at most eight digits")
    return found


def label(written: str) -> str:
    """Return what something is called; an answer of yes or no is none."""
    if written.strip().lower() in _NO_MORE | {"y", "yes"}:
        raise ValueError("write its name, as Perforation")
    return text(written)


def or_no_more(read: Read) -> Read:
    """Return a reader that takes a plain no for the end of a list."""

    def more(written: str) -> Any:
        return None if written.strip().lower() in _NO_MORE else read(written)

    return more


def unlike(taken: Sequence[str]) -> Read:
    """Return a reader of names that are none of those taken."""

    def read(written: str) -> str:
        if name(written) in taken:
            raise ValueError(f"'{written.strip()}' is there already")
        return name(written)

    return read


def day(written: str) -> str:
    """Return a day."""
    said = f"'{written}' is not a day; write it as 2026-03-02"
    if is_two_ways(written):
        said = f"'{written}' can be read in two ways; write year, month, day, as 2026-03-02"
    return str(_valid(_DAY, plain_date(written.strip()), said))


def span(written: str) -> dict[str, str]:
    """Return first and last month, written as ``1995-03 to 1999`` or ``March 1995 to 1999``."""
    said = f"'{written}' does not hold two dates; write them as 1995-03 to 1999-12"
    match = _SPAN_NAMED.fullmatch(written.strip()) or _SPAN.fullmatch(written.strip())
    if match is None:
        raise ValueError(said)
    first, last = (str(_valid(_MONTH, plain_date(one), said)) for one in match.groups())
    if last < first[: len(last)]:
        raise ValueError(f"{last} is before {first}")
    return {"from": first, "to": last}


def number(least: int = 0, most: int = 10**9) -> Read:
    """Return a reader of whole numbers between two."""

    def read(written: str) -> int:
        said = written.strip().replace(" ", "")
        if not (said.isascii() and said.isdigit()) or len(said) > 9:
            raise ValueError(f"'{written}' is not a whole number")
        if not least <= int(said) <= most:
            raise ValueError(f"{said} is not possible here: at least {least}, at most {most}")
        return int(said)

    return read


def events_of_total(patients: int | None = None) -> Read:
    """Return a reader of both numbers of ``4/52``, the total not above some number of patients."""

    def read(written: str) -> tuple[int, int]:
        match = _COUNT.fullmatch(written.strip())
        if match is None:
            raise ValueError(f"'{written}' is not a count; write it as 4/52")
        events, total = int(match[1]), int(match[2])
        if total < 1:
            raise ValueError("a share of nobody cannot be taken")
        if events > total:
            raise ValueError(f"{events} of {total} cannot be")
        if patients is not None and total > patients:
            raise ValueError(f"the group has {patients} patients, and the total is {total}")
        return events, total

    return read


def percentage(written: str) -> str:
    """Return a percentage as printed."""
    if printed_percentage(written) is None:
        raise ValueError(f"'{written}' is not a percentage; write it as printed, as 7.7%")
    return written.strip()


def among(words: Words, *, used: Collection[str] = ()) -> Read:
    """Return a reader of one of some words, given by name, by its place in the list or by label.

    Parameters
    ----------
    words : sequence or mapping of str
        The words; a mapping gives their labels.
    used : collection of str
        Those that may be given no more.
    """
    names = list(words)

    def read(written: str) -> str:
        said = written.strip()
        named = named_in(said, words)
        if said not in names and said.isascii() and said.isdigit() and 1 <= int(said) <= len(names):
            named = names[int(said) - 1]
        if named is None:
            left = [name for name in names if name not in used]
            raise ValueError(f"'{said}' is none of them. {nearest(said, left)}")
        if named in used:
            raise ValueError(f"'{named}' is there already")
        return named

    return read


def named_in(said: str, words: Words) -> str | None:
    """Return the word meant by its name or label; case, spaces and hyphens say nothing."""
    if said in words:
        return said
    labels = words.values() if isinstance(words, Mapping) else words
    plain = _plain(said)
    fitting = [
        name
        for name, label in zip(words, labels, strict=True)
        if plain and plain in (_plain(name), _plain(label))
    ]
    return fitting[0] if len(fitting) == 1 else None


def _plain(words: str) -> str:
    return "".join(one for one in words.casefold() if one.isalnum())


def several(words: Words) -> Read:
    """Return a reader of some of these words, with commas between them."""

    def read(written: str) -> list[str]:
        one = among(words)
        return list(dict.fromkeys(one(part) for part in _parts(written)))

    return read


def listed(written: str) -> list[str]:
    """Return the parts of a list with semicolons between them."""
    return [part.strip() for part in written.split(";") if part.strip()]


def pair(written: str) -> tuple[str, str]:
    """Return both sides of ``NAME=WORDS``."""
    left, equals, right = written.partition("=")
    if not equals or not left.strip() or not right.strip():
        raise ValueError(
            f"'{written}' has not the form NAME=WORDS: a short name, an equals sign, and the words"
        )
    return left.strip(), right.strip()


def number_and_words(least: int) -> Read:
    """Return a reader of ``NUMBER=WORDS``."""

    def read(written: str) -> tuple[int, str]:
        left, words = pair(written)
        return number(least)(left), words

    return read


def short(words: str) -> str | None:
    """Return a short name made of some words, as ``hollowmere-district``; ``None`` of no letters.

    At most two words are taken.
    """
    plain = "".join(one if one.isascii() and one.isalnum() else " " for one in words.lower())
    return "-".join(plain.split()[:2]) or None


def words_by_name(written: Sequence[str]) -> dict[str, str]:
    """Return names with their words, from ``NAME=WORDS`` each."""
    found: dict[str, str] = {}
    for one in written:
        key, words = pair(one)
        if name(key) in found:
            raise ValueError(f"'{key}' is given twice")
        found[key] = words
    return found


def spoken(levels: Mapping[str, str]) -> str:
    """Return names with their words as one would write them in one line."""
    return "; ".join(f"{key}={words}" for key, words in levels.items())


def _parts(written: str) -> list[str]:
    return [part.strip() for part in written.split(",") if part.strip()]


def _valid(kind: TypeAdapter[str], written: str, said: str) -> str:
    try:
        return kind.validate_python(written)
    except ValidationError:
        raise ValueError(said) from None


def yes_or_no(written: str) -> bool:
    """Return whether an answer says yes."""
    word = written.strip().lower()
    if word in ("y", "yes"):
        return True
    if word in ("n", "no"):
        return False
    raise ValueError("write y or n")
