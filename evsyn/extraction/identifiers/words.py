"""The words of a text, and whether one may be a name."""

import re

from evsyn.extraction.identifiers.ordinary_words import is_ordinary

WORD = re.compile(r"[^\W\d_](?:[^\W\d_]|['.\-](?=[^\W\d_]))*")


def words_of(text: str) -> list[str]:
    """Return the words of a text in lower case."""
    return [found.group().casefold() for found in WORD.finditer(text)]


def may_name(word: str) -> bool:
    """Whether a word has two letters and more and is not one of the ordinary ones."""
    return len(word) > 1 and not is_ordinary(word.casefold())
