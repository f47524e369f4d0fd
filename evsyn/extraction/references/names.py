"""Authors as extracts write them: surname, then initials without stops."""

import re
import unicodedata
from collections.abc import Iterable

from evsyn.extraction.references.raw import one_line

ET_AL = "et al."
_ET_AL = re.compile(r"(and\s+)?(et\.?\s*al\.?|others)", re.IGNORECASE)
_INITIALS = re.compile(r"(?:[^\W\d_]\.-?)+")
_LAST_INITIALS = re.compile(r"\s[A-Z]{1,3}$|\s(?:[A-Z]\.-?){1,4}$")
_SUFFIX = re.compile(r"(jr|sr|2nd|3rd|[1-9]th|ii|iii|iv)\.?", re.IGNORECASE)
#: Words that stand in the name of a group and in that of no person.
_GROUP = frozenset({
    "and", "association", "center", "centre", "collaboration", "collaborative",
    "collaborators", "college", "committee", "consortium", "department", "for", "group",
    "hospital", "inc", "institute", "investigators", "ltd", "network", "of", "register",
    "registry", "society", "team", "the", "trust", "university",
})  # fmt: skip


def is_list(name: str) -> bool:
    """Return whether a text without other marks is ``Reed A, Moss B``: several persons."""
    first, comma, rest = name.partition(",")
    return bool(comma) and bool(_LAST_INITIALS.search(first)) and not is_suffix(rest.strip())


def person(printed: str) -> str:
    """Return one author as ``Surname I``; a group, or a name without a comma, as printed.

    Parameters
    ----------
    printed : str
        ``Surname, Given names, Suffix``, as RIS and BibTeX have it.

    Examples
    --------
    >>> person("Reed, Alder Birch"), person("Moss, J.-P., Jr."), person("Reed AB")
    ('Reed AB', 'Moss JP Jr', 'Reed AB')
    """
    name = one_line(unicodedata.normalize("NFC", printed)).rstrip(";")
    if _ET_AL.fullmatch(name):
        return ET_AL
    surname, *rest = (part.strip() for part in name.split(","))
    rest = [part for part in rest if part]
    # A trailing comma is how some programs mark a name that is not to be taken apart.
    if not rest or not surname or _is_group(name):
        return _without_stops(name.rstrip(", "))
    if is_list(name):
        return ", ".join(_without_stops(one) for one in (surname, *rest))
    suffixes = [part.rstrip(".") for part in rest if is_suffix(part)]
    given = " ".join(part for part in rest if not is_suffix(part))
    return " ".join(filter(None, (surname, initials(given), *suffixes)))


def is_suffix(word: str) -> bool:
    """Return whether a word is ``Jr``, ``III`` or the like."""
    return bool(_SUFFIX.fullmatch(word))


def initials(given: str) -> str:
    """Return initials without stops; given names in a script without capitals stay whole."""
    kept = ""
    for part in re.split(r"[\s.\-‐‑]+", given):
        word = part.strip("'’`()\"")
        if not word:
            continue
        if word[0].upper() == word[0].lower():
            return given
        kept += word if word.isupper() and len(word) <= 3 else word[0].upper()
    return kept


def listed(authors: Iterable[str]) -> tuple[str, ...]:
    """Return the authors in order, with ``et al.`` last if it stands anywhere."""
    named = [name for name in map(one_line, authors) if name]
    kept = [name for name in named if name != ET_AL]
    return (*kept, ET_AL) if kept and len(kept) < len(named) else tuple(kept)


def _is_group(name: str) -> bool:
    return any(word.casefold() in _GROUP for word in re.findall(r"\w+", name))


def _without_stops(name: str) -> str:
    """Return ``Reed A.B.`` as ``Reed AB``, and anything else as it is."""
    *before, last = name.split(" ")
    if before and _INITIALS.fullmatch(last):
        return " ".join((*before, last.replace(".", "").replace("-", "")))
    return name
