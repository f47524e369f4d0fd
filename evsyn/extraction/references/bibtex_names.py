"""The authors of a BibTeX entry."""

from evsyn.extraction.references.latex import plain
from evsyn.extraction.references.names import ET_AL, initials, is_list, is_suffix, listed, person
from evsyn.extraction.references.raw import one_line


def authors_in(text: str) -> tuple[str, ...]:
    """Return the authors of an ``author`` field as ``Surname I``, groups by their names."""
    from bibtexparser.middlewares.names import split_multiple_persons_names

    return listed(_author(one) for one in split_multiple_persons_names(text) if one.strip())


def _author(printed: str) -> str:
    """Return a person as ``Surname I``; a name in braces is that of a group."""
    from bibtexparser.middlewares.names import parse_single_name_into_parts

    text = printed.strip()
    if text.casefold() == "others":
        return ET_AL
    if is_one_group(text):
        return one_line(plain(text))
    # Surname first and initials last is not BibTeX, and common.
    last_word = text.split()[-1]
    if "," not in text and last_word.isupper() and len(last_word) <= 3:
        return person(plain(text))
    # Persons not put apart by "and".
    if is_list(text):
        return person(plain(text))
    second, *more = (part.strip() for part in text.split(",")[1:]) if "," in text else ("",)
    if more and not is_suffix(second):
        return one_line(plain(text))
    parts = parse_single_name_into_parts(text, strict=False)
    von, last, jr, given = (
        one_line(plain(" ".join(words))) for words in (parts.von, parts.last, parts.jr, parts.first)
    )
    surname = " ".join(filter(None, (von, last)))
    if not surname:
        return one_line(plain(text))
    return " ".join(filter(None, (surname, initials(given), jr.rstrip("."))))


def is_one_group(text: str, first: str = "{", last: str = "}") -> bool:
    """Return whether the text begins with a brace or quotation mark that its last letter closes."""
    if len(text) < 2 or text[0] != first:
        return False
    depth = 0
    for place, letter in enumerate(text):
        depth += (letter == "{") - (letter == "}")
        if letter == last and place > 0 and depth == 0:
            return place == len(text) - 1
    return False
