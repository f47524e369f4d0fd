"""One plain writing of a value, so that no disguise of characters hides what it is."""

import re
import unicodedata

from evsyn.extraction.case_log.raw_table import RawValue

_DASHES = re.compile(r"[\u2010-\u2015\u2212\ufe58\ufe63\uff0d]")
#: Cyrillic and Greek letters that look Latin, and the Latin ones.
_LOOK = "АВЕКМНОРСТХаеорсухΑΒΕΗΙΚΜΝΟΡΤΧο"
_LATIN = "ABEKMHOPCTXaeopcyxABEHIKMNOPTXo"
_LOOKALIKES = str.maketrans(_LOOK, _LATIN)
_WHOLE = re.compile(r"(?<![\d.])(\d{5,})\.0+$")


def plain_text(value: RawValue) -> str:
    """Return a value as text in plain characters.

    Full-width and other digits become 0-9, every dash ``-``, every quotation mark ``'``, every
    run of spaces one space; characters without width go, and letters that only look Latin become
    so. A whole number stored as a float loses its ``.0``. ``None``, truth values, dates and times
    give an empty text: they are judged as what they are.
    """
    if isinstance(value, bool):
        return ""
    if isinstance(value, float):
        return str(int(value)) if value.is_integer() else repr(value)
    if isinstance(value, int):
        return str(value)
    if not isinstance(value, str):
        return ""
    text = unicodedata.normalize("NFKC", value)
    text = "".join(_plain_character(character) for character in text)
    text = _DASHES.sub("-", text.translate(_LOOKALIKES)).replace("\u2019", "'").replace("`", "'")
    return _WHOLE.sub(r"\1", " ".join(text.split()))


def _plain_character(character: str) -> str:
    kind = unicodedata.category(character)
    if kind == "Cf":
        return ""
    if kind == "Nd":
        return str(unicodedata.decimal(character))
    return " " if kind in {"Zs", "Zl", "Zp", "Cc"} else character


def without_accents(text: str) -> str:
    """Return lower-case text without accents, for comparing words."""
    apart = unicodedata.normalize("NFD", text.casefold())
    return "".join(character for character in apart if not unicodedata.combining(character))
