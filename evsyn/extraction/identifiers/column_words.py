"""How a column or a sheet is called in a message without telling what it holds."""

from evsyn.extraction.identifiers.cell import cell_likenesses
from evsyn.extraction.identifiers.headings import (
    heading_likeness,
    is_operator_heading,
    is_person_like_heading,
)
from evsyn.extraction.identifiers.likeness import Likeness
from evsyn.extraction.identifiers.ordinary_words import is_ordinary
from evsyn.extraction.identifiers.plain_text import plain_text
from evsyn.extraction.identifiers.words import words_of

_LONGEST = 40


def column_letter(place: int) -> str:
    """Return the letter or letters of a column counted from 0, as spreadsheets write it."""
    letters = ""
    place += 1
    while place:
        place, rest = divmod(place - 1, 26)
        letters = chr(ord("A") + rest) + letters
    return letters


def column_name(place: int, heading: str, likeness: Likeness, *, hidden: bool = False) -> str:
    """Return a column's letter, whether it is hidden, and its heading where that tells nothing.

    In a file without headings the first case stands in their place. So a heading with three
    digits on end, with an identifier in it, or, for a column of persons, with a word that could
    be a name, is not told.
    """
    text = plain_text(heading)
    letter = f"{'hidden ' if hidden else ''}column {column_letter(place)}"
    return f'{letter} ("{text}")' if text and _tellable(text, likeness) else letter


def sheet_name(sheet: str, place: int) -> str:
    """Return the name of another sheet where it gives nothing away, or its place among them."""
    text = plain_text(sheet)
    told = text and _tellable(text, Likeness.PERSON)
    return f'sheet "{text}"' if told else f"sheet {place} of the others"


def _tellable(text: str, likeness: Likeness) -> bool:
    digits = sum(character.isdigit() for character in text)
    if cell_likenesses(text) or digits > 2 or len(text) > _LONGEST:
        return False
    if likeness not in {Likeness.PERSON, Likeness.OPERATOR}:
        return True
    openly = heading_likeness(text) or is_operator_heading(text) or is_person_like_heading(text)
    words = words_of(text)
    return all(is_ordinary(word) for word in words) or (bool(openly) and len(words) == 1)
