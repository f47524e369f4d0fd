"""What may stand in the column of the operator: roles, and nothing else."""

import re
from collections.abc import Mapping

from evsyn.extraction.case_log.spelling import spelled
from evsyn.extraction.identifiers.cell import cell_likenesses
from evsyn.extraction.identifiers.plain_text import plain_text, without_accents

#: Words of roles that are allowed where the plan declares none.
_ROLES = (
    "surgeon gastroenterologist radiologist consultant trainee registrar nurse endoscopist fellow"
    " physician specialist colorectal general interventional senior junior supervised"
)
_GENERIC = frozenset(_ROLES.split())
_NOBODY = frozenset(
    ("", "yes", "no", "y", "n", "unknown", "not known", "not recorded", "not stated", "none", "na")
) | {"n a", "nil", "missing", "other"}
#: A short form and a long one.
_MOST_OWN_WORDS = 2
#: Ordinary abbreviations of roles, from memory; two letters alone could be initials.
_SHORT = "gi ir gastro surg rad radiol cons reg spr str sho cns endo"
_ABBREVIATIONS = frozenset(_SHORT.split())
#: A short form has as many letters at least.
_SHORTEST = 3
_BETWEEN = re.compile(r"[,/+&;]|\band\b|\bwith\b")


def are_roles(texts: list[str], roles: Mapping[str, str]) -> bool:
    """Whether every value of a column is a role, several roles, or a word for none.

    Parameters
    ----------
    texts : list of str
        The values in plain characters.
    roles : mapping of str to str
        Roles of the plan and their words; where it is empty, the common words of roles count.
    """
    allowed = {_bare(word) for pair in roles.items() for word in pair}
    return all(_is_role(text, allowed) for text in texts)


def roles_in(words: Mapping[str, str], roles: Mapping[str, str]) -> dict[str, str]:
    """Return the log's own words that stand for a role.

    A unit file could call every surgeon by name, or by initials, so. A word is therefore taken
    only if it is one of the role's own words or a short form of one, or an ordinary abbreviation
    of a role; none is where more than two unlike words stand for one role.

    Parameters
    ----------
    words : mapping of str to str
        The log's own words, and the names they stand for.
    roles : mapping of str to str
        Roles of the plan and their words.
    """
    known = {spelled(word): name for name, label in roles.items() for word in (name, label)}
    found: dict[str, dict[str, str]] = {}
    for word, name in words.items():
        role = known.get(spelled(name))
        if role is None or cell_likenesses(plain_text(word)):
            continue
        if _names_role(word, f"{role} {roles[role]}"):
            found.setdefault(role, {})[word] = role
    few = (own for own in found.values() if len({*map(_bare, own)}) <= _MOST_OWN_WORDS)
    return {word: role for own in few for word, role in own.items()}


def _names_role(word: str, role: str) -> bool:
    """Whether every part of a word is one of the role's own, a short form, or an abbreviation."""
    own = _letters(role)

    def fits(part: str) -> bool:
        short = len(part) >= _SHORTEST and any(one.startswith(part) for one in own)
        return part in own or part in _ABBREVIATIONS or part in _GENERIC or short

    parts = _letters(word)
    return bool(parts) and all(map(fits, parts))


def _letters(text: str) -> list[str]:
    """Return the runs of letters of a text."""
    return re.findall(r"[^\W\d_]+", plain_text(text).casefold())


def are_answers(texts: list[str]) -> bool:
    """Whether a column holds yes, no and the like alone, and something at all."""
    return bool(texts) and all(_bare(text) in _NOBODY for text in texts)


def any_role(texts: list[str], roles: Mapping[str, str]) -> bool:
    """Whether a value of a column is a role, so that the column is of operators."""
    allowed = {_bare(word) for pair in roles.items() for word in pair} or _GENERIC
    return any(_bare(text) in allowed for text in texts)


def _is_role(text: str, allowed: set[str]) -> bool:
    whole = _bare(text)
    if whole in _NOBODY or whole in allowed:
        return True
    parts = [_bare(part) for part in _BETWEEN.split(text.casefold())]
    if allowed:
        return all(part in allowed for part in parts)
    return all(part and set(part.split()) <= _GENERIC for part in parts)


def _bare(text: str) -> str:
    return " ".join(re.sub(r"[\W_]+", " ", without_accents(text)).split())
