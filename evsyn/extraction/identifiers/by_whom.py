"""Who did or said something, as notes tell it: ``seen by``, ``d/w``, ``consultant`` and a name."""

import re

from evsyn.extraction.identifiers.words import may_name

_DEPARTMENTS = """
AE AMU ANP AXR CNS CT ED GI GP HDU ICU IR ITU LGI MDT MR MRI NHS OPD RIP SAU SHO SPR ST UGI US XR
"""
#: Capitals that are departments, grades and scans, and nobody's initials.
NOT_INITIALS = frozenset(_DEPARTMENTS.split())
_DEEDS = "seen|reviewed|done|performed|referred|reported|consented|inserted|placed|stented"
_SEEN_BY = rf"(?i:(?:{_DEEDS}) by|s/b|d/w|discussed with)"
_ROLE = "(?i:consultant|cons|surgeon|registrar|operator|endoscopist|radiologist|gp)"
_FIRST = r"(?:[A-Z]\.?\s){0,3}"
#: Behind these a name is one in small letters too; behind the others in capitals only.
_SURE = re.compile(rf"\b{_SEEN_BY}\s{_FIRST}([^\W\d_][\w'\-]+)")
_CAPITAL = re.compile(
    rf"\b(?:(?i:by|under|spoke to|told|informed)|{_ROLE}:?)\s{_FIRST}([A-Z][a-z][\w'\-]+)"
)
_INITIALS = re.compile(rf"\b(?:{_SEEN_BY}|{_ROLE}:)\s([A-Z]{{2,3}}|(?:[A-Z]\.){{2,3}})(?!\w)")


def tells_by_whom(text: str) -> bool:
    """Whether a text tells by name or initials who did or was told something."""
    names = [*_SURE.findall(text), *_CAPITAL.findall(text)]
    if any(may_name(name) for name in names if name.upper() not in NOT_INITIALS):
        return True
    return any(found not in NOT_INITIALS for found in _INITIALS.findall(text))
