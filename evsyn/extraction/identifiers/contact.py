"""Telephone numbers and e-mail addresses."""

import re

_PHONE = re.compile(
    r"(?<![\d.])(?:(?:\+|00)\s?[1-9]\d{0,2}[\s.\-]*(?:\(0\))?(?:[\s().\-]*\d){8,11}"
    r"|\(?0[\s\-]*[1-9](?:[\s().\-]*\d){8,9})(?!\d)"
)
_ANNOUNCED = re.compile(
    r"\b(?:tel|phone|telephone|mobile|mob|ext|extension|bleep|fax)\b[\s.:#no]*\+?\d[\d\s\-]{2,}",
    re.IGNORECASE,
)
#: Begins where a word begins and is bounded, so that a very long cell is read in little time.
_NAME = r"(?<![\w.+\-])[\w.+\-]{1,64}"
_EMAIL = re.compile(
    rf"{_NAME}\s?@\s?(?:[a-z][\w\-]*\.\w|nhs)"
    rf"|{_NAME}\s?[(\[{{<]\s?at\s?[)\]}}>]\s?\w"
    rf"|{_NAME}\sat\s[\w\-]{{1,64}}\sdot\s\w",
    re.IGNORECASE,
)


def without_phones(text: str) -> str:
    """Return the text with each telephone number cut out; the same text when it holds none."""
    return _ANNOUNCED.sub(" ; ", _PHONE.sub(" ; ", text))


def holds_email(text: str) -> bool:
    """Whether a text holds an e-mail address, ``name (at) place`` included."""
    return _EMAIL.search(text) is not None
