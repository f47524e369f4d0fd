"""Postcodes and lines of an address."""

import re

#: The areas of postcodes of the United Kingdom (from memory). T, C and R are none, so that
#: stages and case numbers are not taken for districts.
_AREAS = """
AB AL B BA BB BD BH BL BN BR BS BT CA CB CF CH CM CO CR CT CV CW DA DD DE DG DH DL DN DT DY E EC
EH EN EX FK FY G GL GU GY HA HD HG HP HR HS HU HX IG IM IP IV JE KA KT KW KY L LA LD LE LL LN LS
LU M ME MK ML N NE NG NN NP NR NW OL OX PA PE PH PL PO PR RG RH RM S SA SE SG SK SL SM SN SO SP
SR SS ST SW SY TA TD TF TN TQ TR TS TW UB W WA WC WD WF WN WR WS WV YO ZE
"""
AREAS = frozenset(_AREAS.split())
_FULL = re.compile(
    r"(?<![A-Z\d])([A-Z]{1,2})\d[A-Z\d]?\s?-?\d[ABD-HJLNP-UW-Z]{2}(?![A-Z\d])", re.IGNORECASE
)
_SECTOR = re.compile(r"([A-Z]{2})\d[A-Z\d]?\s\d", re.IGNORECASE)
_SINGLE_SECTOR = re.compile(r"([A-Z])\d[A-Z\d]?\s\d", re.IGNORECASE)
_DISTRICT = re.compile(r"([A-Z]{2})\d[A-Z\d]?", re.IGNORECASE)
_ANY_DISTRICT = re.compile(r"([A-Z]{1,2})\d[A-Z\d]?(?:\s\d)?", re.IGNORECASE)
#: Of many countries: 1010, 80331, A-1010 (forms from memory).
_NUMBER = re.compile(r"(?:[A-Z]{1,2}[\s\-])?(\d{4,5})", re.IGNORECASE)
_IRISH = re.compile(r"[A-Z]\d[\dW]\s?(?=[A-Z\d]*\d)(?=[A-Z\d]*[A-Z])[A-Z\d]{4}", re.IGNORECASE)
_CANADIAN = re.compile(r"[A-Z]\d[A-Z]\s?\d[A-Z]\d", re.IGNORECASE)

_PLAIN_WAYS = "street|road|rd|avenue|ave|lane|crescent|terrace|gardens|grove|mews"
_CAPITAL_WAYS = "Street|Road|Rd|Avenue|Lane|Crescent|Terrace|Gardens|Grove|Mews"
_AMBIGUOUS_WAYS = "Close|Drive|Court|Place|Way|Square|Hill|Walk|St|Green|Park"
_NOT_A_HOSPITAL = r"(?!\s(?:hospital|clinic|centre|infirmary|surgery|site|unit))"
_ADDRESS = re.compile(
    rf"(?i:\b\d{{1,4}}[a-z]?,?\s(?:[a-z'.]+\s){{1,2}}(?:{_PLAIN_WAYS})\b{_NOT_A_HOSPITAL})"
    rf"|\b\d{{1,4}}[a-z]?,?\s(?:[A-Z][a-z']+\s){{1,2}}(?:{_AMBIGUOUS_WAYS})\b"
    rf"|\b[A-Z][a-z']+\s(?:{_CAPITAL_WAYS})\b(?i:{_NOT_A_HOSPITAL})"
    r"|(?i:\bflat\s\d+[a-z]?,|\bp\.?\s?o\.?\sbox\s\d)"
)


def holds_postcode(text: str) -> bool:
    """Whether a text holds a full postcode, or is one down to its sector and nothing else."""
    if any(found.group(1).upper() in AREAS for found in _FULL.finditer(text)):
        return True
    sector = _SECTOR.fullmatch(text)
    if sector is not None and sector.group(1).upper() in AREAS:
        return True
    return any(form.fullmatch(text) for form in (_IRISH, _CANADIAN))


def are_districts(texts: list[str]) -> bool:
    """Whether the values of a column are mostly first halves of postcodes.

    One half alone says little: ``N1`` is a stage too, ``CO1`` may be the first case. So one-letter
    areas count with their sector only, and two-letter ones when they are several or do not run on.
    """
    found = [match for text in texts if (match := _area_of(text)) is not None]
    if len(set(found)) < 3 or len(found) < 0.6 * len(texts):
        return False
    areas = {area for area, _ in found}
    numbers = {int(number) for _, number in found if number.isdigit()}
    running = bool(numbers) and max(numbers) - min(numbers) < 2 * len(numbers)
    return len(areas) > 1 or not running


def are_postcodes_of_places(texts: list[str]) -> bool:
    """Whether most values of a column of places are postcodes: districts, or all of 4 or 5 digits.

    Asked only where the heading speaks of places: elsewhere such values may be costs or cases.
    """
    districts = [
        found
        for text in texts
        if (found := _ANY_DISTRICT.fullmatch(text)) is not None and found.group(1).upper() in AREAS
    ]
    lengths = [len(found.group(1)) for text in texts if (found := _NUMBER.fullmatch(text))]
    most = max(len(districts), lengths.count(4), lengths.count(5))
    return most > 0 and most >= 0.6 * len(texts)


def _area_of(text: str) -> tuple[str, str] | None:
    for form in (_SINGLE_SECTOR, _DISTRICT):
        match = form.fullmatch(text)
        if match is not None and match.group(1).upper() in AREAS:
            area = match.group(1).upper()
            return area, text[len(area) :]
    return None


def holds_address(text: str) -> bool:
    """Whether a text holds a house with its street, a named street, a flat or a box."""
    return _ADDRESS.search(text) is not None
