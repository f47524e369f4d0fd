"""Names that show only by the company of their column."""

from evsyn.extraction.identifiers.persons import (
    is_dotted_initials,
    is_initials,
    may_name,
    shaped_as_name,
)

_MOSTLY_UNLIKE = 0.8
_FEW = 8


def are_persons(texts: list[str], *, about_persons: bool) -> bool:
    """Whether the values of a column are together like names or initials.

    Categories repeat and names do not: away from columns about persons, values must be mostly
    unlike each other.

    Parameters
    ----------
    texts : list of str
        The values in plain characters.
    about_persons : bool
        Whether the heading speaks of persons; a few such values are then enough.
    """
    names = [text for text in texts if shaped_as_name(text)]
    initials = [text for text in texts if is_initials(text)]
    dotted = [text for text in texts if is_dotted_initials(text)]
    single = [text for text in texts if text.isalpha() and len(text) > 2 and may_name(text)]
    if about_persons:
        likely = len(names) + len(initials) + len(dotted) + len(single)
        return likely >= 0.3 * len(texts) > 0
    enough = len(texts) // 2
    return (
        _many_unlike(names, max(enough, 3))
        or len(dotted) > max(enough, 1)
        or _many_unlike(initials, max(enough, _FEW))
        or _many_unlike(single, max(enough, _FEW))
    )


def _many_unlike(found: list[str], least: int) -> bool:
    unlike = {text.casefold() for text in found}
    return len(found) >= least and len(unlike) >= _MOSTLY_UNLIKE * len(found)
