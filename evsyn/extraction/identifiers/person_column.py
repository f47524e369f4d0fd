"""Names that show only by the company of their column."""

from evsyn.extraction.identifiers.persons import (
    has_initials,
    is_dotted_initials,
    is_initials,
    shaped_as_name,
)
from evsyn.extraction.identifiers.words import may_name

_MOSTLY_UNLIKE = 0.8
_FEW = 8


def are_persons(texts: list[str], *, about_persons: bool, about_things: bool) -> bool:
    """Whether the values of a column are together like names or initials.

    Categories repeat and names do not: away from columns about persons, values must be mostly
    unlike each other.

    Parameters
    ----------
    texts : list of str
        The values in plain characters.
    about_persons : bool
        Whether the heading speaks of persons; a few such values are then enough.
    about_things : bool
        Whether it speaks of devices, places and the like, whose models may be called by a letter.
    """
    enough = len(texts) // 2
    names = [text for text in texts if shaped_as_name(text)]
    initials = [text for text in texts if is_initials(text)]
    dotted = [text for text in texts if is_dotted_initials(text)]
    single = [text for text in texts if text.isalpha() and len(text) > 2 and may_name(text)]
    if about_persons:
        shapes = {*names, *initials, *dotted, *single}
        return sum(text in shapes for text in texts) >= 0.3 * len(texts) > 0
    if not about_things and sum(has_initials(text) for text in texts) > enough:
        return True
    return (
        _many_unlike(names, max(enough, 3))
        or len(dotted) > max(enough, 1)
        or _many_unlike(initials, max(enough, _FEW))
        or _many_unlike(single, max(enough, _FEW))
    )


def _many_unlike(found: list[str], least: int) -> bool:
    unlike = {text.casefold() for text in found}
    return len(found) >= least and len(unlike) >= _MOSTLY_UNLIKE * len(found)
