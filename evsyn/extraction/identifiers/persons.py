"""Names of persons in one value."""

import re

from evsyn.extraction.identifiers.by_whom import NOT_INITIALS, tells_by_whom
from evsyn.extraction.identifiers.personal_names import GIVEN_NAMES, SURNAMES
from evsyn.extraction.identifiers.words import WORD, may_name, words_of

_LETTERS = r"[^\W\d_]"
_TITLE = re.compile(
    rf"(?<![\w.])(?:mr|mrs|ms|mx|dr|drs|prof|professor)\b\.?\s?(?:{_LETTERS}\.?\s){{0,3}}"
    rf"({_LETTERS}[\w'\-]+)"
    rf"|\b(?:Miss|Sr|Sister|Sir|Lady|Dame|Rev|Master|Nurse|MISS|SISTER)\.?\s([A-Z][\w'\-]+)",
    re.IGNORECASE,
)
_CAPITAL_TITLES = ("miss", "sr", "sister", "sir", "lady", "dame", "rev", "master", "nurse")
_JOINED_TITLE = re.compile(r"\b(?:Mr|Mrs|Ms|Dr|Prof)(?:[A-Z][a-z]{2,}|\.?\s[A-Z]\b)")
_SCANS = {"enterography", "enteroclysis", "spectroscopy", "elastography"}
_NEE = re.compile(r"\bn[ée]e:?\s\w", re.IGNORECASE)
#: Up to three capitals, or one small letter; "old" and "fit" are words.
_INITIALS = r"(?:(?:[A-Z][.\s]{0,2}){1,3}|[^\W\d_][.\s]{0,2})"
#: 'Smith, J', 'Smith J', 'J. Smith', 'SmithJ', whole.
_COMMA = re.compile(rf"({_LETTERS}[\w'\-]+),\s?{_INITIALS}")
_LAST_FIRST = re.compile(rf"({_LETTERS}[\w'\-]+),\s?({_LETTERS}[\w'\-]+)(?:\s{_INITIALS})?")
_BEHIND = re.compile(rf"({_LETTERS}[\w'\-]+)[\s_]{_INITIALS}")
_BEFORE = re.compile(rf"{_INITIALS}(?<=[\s.])({_LETTERS}[\w'\-]{{2,}})")
_JOINED = re.compile(r"([A-Z][a-z]{2,})[A-Z]{1,2}")
#: 'J. Smith' and 'Smith J.' anywhere: the point tells an initial.
_POINTED = re.compile(
    r"(?<![\w.])(?:[A-Z]\.\s?){1,3}([A-Z][a-z'\-]{2,})|\b([A-Z][a-z'\-]{3,}),?\s[A-Z]\.(?=\s|$)"
)
_PAIR = re.compile(r"(?<![\w'])([A-Z][a-z'\-]+)\s([A-Z][a-z'\-]{2,})(?![\w'])")
#: What is named after persons, and what has a name of two words.
_PLACES = {"hospital", "infirmary", "centre", "center", "clinic", "unit", "ward", "trust"}
_METHODS = {"score", "index", "scale", "classification", "procedure", "operation", "criteria"}
_THINGS = _PLACES | _METHODS | {"stent", "device", "wire", "guidewire", "catheter", "tube", "grade"}
_NAMED_AFTER = {"st", "saint", "queen", "king", "prince", "princess", "royal"}


def holds_person(text: str) -> bool:
    """Whether a text names a person so plainly that one such value is enough."""
    return (
        _titled(text)
        or _JOINED_TITLE.search(text) is not None
        or any(may_name(a or b) for a, b in _POINTED.findall(text))
        or _common_name(text)
        or tells_by_whom(text)
        or _NEE.search(text) is not None
        or _comma_initial(text)
        or _pair_in_sentence(text)
    )


def shaped_as_name(text: str) -> bool:
    """Whether a whole value has the shape of a name, which many such values in a column confirm.

    A surname with a given name or initials on either side, or two or three words that are not
    ordinary ones, in capitals or not.
    """
    for form in (_LAST_FIRST, _BEHIND, _BEFORE, _JOINED):
        match = form.fullmatch(text)
        if match is not None and all(may_name(word) for word in match.groups()):
            return True
    words = text.replace(",", " ").split()
    return 2 <= len(words) <= 3 and all(WORD.fullmatch(w) and may_name(w) for w in words)


def has_initials(text: str) -> bool:
    """Whether a whole value is a word of four letters and more with initials on one side."""
    match = _BEHIND.fullmatch(text) or _BEFORE.fullmatch(text)
    return match is not None and len(match.group(1)) > 3 and may_name(match.group(1))


def is_initials(text: str) -> bool:
    """Whether a whole value is two or three capitals, with or without points or spaces."""
    bare = re.sub(r"[.\s\-]", "", text)
    return re.fullmatch(r"[A-Z]{2,3}", bare) is not None and bare not in NOT_INITIALS


def is_dotted_initials(text: str) -> bool:
    """Whether a whole value is two or three capitals, each with its point."""
    return re.fullmatch(r"(?:[A-Z]\.\s?){2,3}|[A-Z]\.[A-Z]", text) is not None


def _titled(text: str) -> bool:
    for match in _TITLE.finditer(text):
        name = match.group(1) or match.group(2)
        title = match.group().split()[0].rstrip(".").casefold()
        if title in _CAPITAL_TITLES and not (match.group()[0].isupper() and name[0].isupper()):
            continue
        if may_name(name) and name.casefold() not in _SCANS:
            return True
    return False


def _common_name(text: str) -> bool:
    words = words_of(text)
    for place, word in enumerate(words):
        parts = word.removesuffix("'s").replace(".", "-").split("-")
        if not any(part in GIVEN_NAMES or part in SURNAMES for part in parts):
            continue
        # A hospital or a score may be named after somebody.
        around = set(words[place + 1 : place + 3]) & (_PLACES | _METHODS)
        if not around and not (place and words[place - 1] in _NAMED_AFTER):
            return True
    whole = re.sub(r"[\W\d_]", "", text).casefold()
    with_initial = len(whole) > 5 and " " not in text
    return with_initial and (whole[:-1] in SURNAMES or whole[1:] in SURNAMES)


def _comma_initial(text: str) -> bool:
    match = _COMMA.fullmatch(text)
    return match is not None and may_name(match.group(1)) and len(match.group(1)) > 2


def _pair_in_sentence(text: str) -> bool:
    words = text.split()
    if len(words) < 4 or sum(word[0].isupper() for word in words) > 0.6 * len(words):
        return False
    for match in _PAIR.finditer(text):
        after = words_of(text[match.end() :])[:1]
        if all(may_name(word) for word in match.groups()) and not _THINGS & set(after):
            return True
    return False
