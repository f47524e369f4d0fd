"""Numbers that lead to a record: of a hospital, of the state, of a register."""

import re

_INSURANCE = re.compile(
    r"(?<![A-Z\d])[A-CEGHJ-PR-TW-Z][A-CEGHJ-NPR-TW-Z][\s\-]?(?:\d\d[\s\-]?){3}[A-D](?![A-Z\d])",
    re.IGNORECASE,
)
_LONG = re.compile(r"(?<!\d)(?<!\d[.,])\d{8,}(?!\d)|\b\d[.,]\d+E\+?(?:0[7-9]|1\d)\b", re.IGNORECASE)
_LETTERED = re.compile(
    r"(?<![A-Z\d])(?:[A-Z]{1,3}[\s\-/.]?\d{5,8}|\d{6,8}[\s\-]?[A-Z]|\d{2}/\d{6,7})(?![A-Z\d])",
    re.IGNORECASE,
)
_GROUPED = re.compile(
    r"(?<![\d.])\d{3}[\s\-.]\d{3}[\s\-.]\d{4}(?!\d)|(?<!\d)\d{3}-\d\d-\d{4}(?!\d)"
)
_ANNOUNCED = re.compile(
    r"\b(?:mrn|crn|pas|chi|nhs|hosp(?:ital)?|unit|case\s?note|gmc|nmc|passport)s?\b[\s.:#]*"
    r"(?:no|num|number|id)?[\s.:#]*[A-Z]{0,3}\d{4,}",
    re.IGNORECASE,
)
_MIDDLING = re.compile(r"'?(\d{3})\s?(\d{3,4})")
_ROUND = 100
#: What a log gives its cases itself: 7, S07, A-12.
_OWN = re.compile(r"[A-Z]{0,3}[\s\-/.]?\d{1,5}", re.IGNORECASE)
_YEAR_MONTH = re.compile(r"(?:19|20)\d\d(?:0[1-9]|1[0-2])")


def holds_insurance_number(text: str) -> bool:
    """Whether a text holds a National Insurance number (form from memory)."""
    return _INSURANCE.search(text) is not None


def holds_record_number(text: str) -> bool:
    """Whether a text holds a number too long, or too marked, to count or measure anything.

    Eight digits and more, one to three letters with five to eight digits, ten digits in groups of
    3, 3 and 4, a number in powers of ten, or four digits and more behind a word as ``MRN``.
    """
    return any(form.search(text) for form in (_LONG, _LETTERED, _GROUPED, _ANNOUNCED))


def are_record_numbers(texts: list[str]) -> bool:
    """Whether most values are numbers of six or seven digits, mostly unlike, that do not run on.

    Numbers that run on (2024001, 2024002, ...) are given by who keeps the log and lead nowhere;
    six digits that are all years with their months are months, and round numbers are measures.
    """
    matches = [match for text in texts if (match := _MIDDLING.fullmatch(text))]
    found = ["".join(match.groups()) for match in matches]
    if not found or len(found) < 0.5 * len(texts) or len(set(found)) < 0.8 * len(found):
        return False
    if all(_YEAR_MONTH.fullmatch(text) for text in found):
        return False
    numbers = {int(text) for text in found}
    if all(number % _ROUND == 0 for number in numbers):
        return False
    return len(numbers) == 1 or max(numbers) - min(numbers) >= 3 * len(numbers)


def stray_record_numbers(texts: list[str], *, of_references: bool) -> set[str]:
    """Return the numbers of six or seven digits among the short references of a log's own.

    One of them is enough: a column of S01, S02, ... has no other use for it. Where the references
    are numbers alone the column must say that it holds references, or the numbers must run on, so
    that a large cost or count is not taken for one.

    Parameters
    ----------
    texts : list of str
        The values of a column in plain characters.
    of_references : bool
        Whether the heading speaks of references.
    """
    stray = {text for text in texts if _MIDDLING.fullmatch(text)}
    own = [text for text in texts if _OWN.fullmatch(text)]
    if not stray or len(own) < 0.8 * len(texts):
        return set()
    numbers = {int(text) for text in own if text.isdigit()}
    lettered = len(own) - sum(text.isdigit() for text in own)
    runs_on = len(numbers) > 0.8 * len(own) and max(numbers) - min(numbers) < 2 * len(numbers)
    return stray if of_references or lettered > 0.5 * len(own) or runs_on else set()
