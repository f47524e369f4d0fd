"""The lists a cell's word is picked from, taken from the plan."""

import hashlib
import json
from collections.abc import Iterable, Mapping
from enum import StrEnum

from evsyn.extraction.plan import Characteristic, LabelledStratum, Plan
from evsyn.terms import AS_PRINTED, MIXED, NOT_STATED, CountedBy, Covers, TextRead

OUTCOMES, DENOMINATORS, WINDOWS, TREATMENTS = "outcomes", "denominators", "windows", "treatments"
COUNTED_BY, COVERS, READ_FROM, YES_NO = "counted by", "covers", "read from", "yes or no"
YES, NO = "yes", "no"


def pick_lists(plan: Plan) -> dict[str, dict[str, str]]:
    """Return each list by its name: the words, and what the plan says of them.

    Words whose meaning is fixed have an empty text.
    """
    lists: dict[str, dict[str, str]] = {
        OUTCOMES: {name: outcome.label for name, outcome in plan.outcomes.items()},
        DENOMINATORS: {**plan.denominators, AS_PRINTED: ""},
        WINDOWS: {**{name: one.label for name, one in plan.windows.items()}, NOT_STATED: ""},
    }
    if plan.treatments:
        lists[TREATMENTS] = dict(plan.treatments)
    for name, stratum in plan.strata.items():
        if isinstance(stratum, LabelledStratum):
            lists[of_stratum(name)] = {**stratum.levels, MIXED: "", NOT_STATED: ""}
    declared = plan.characteristics
    for whose, facts in (("study", declared.study), ("arm", declared.arm)):
        for name, fact in facts.items():
            if fact.kind == "choice":
                lists[of_fact(whose, name)] = _levels(fact)
    lists[COUNTED_BY] = _fixed(CountedBy)
    lists[COVERS] = _fixed(Covers)
    lists[READ_FROM] = _fixed(TextRead)
    lists[YES_NO] = {YES: "", NO: ""}
    return lists


def of_stratum(name: str) -> str:
    """Return the name of a stratum's list."""
    return f"stratum {name}"


def of_fact(whose: str, name: str) -> str:
    """Return the name of the list of a declared fact, of a study or an arm."""
    return f"{whose} {name}"


def fingerprint(headings: Mapping[str, Iterable[str]], lists: Mapping[str, Iterable[str]]) -> str:
    """Return a short text that differs wherever columns or words differ."""
    told = [{name: list(words) for name, words in both.items()} for both in (headings, lists)]
    return hashlib.sha256(json.dumps(told).encode()).hexdigest()[:12]


def _levels(fact: Characteristic) -> dict[str, str]:
    return {**fact.levels, MIXED: "", NOT_STATED: ""}


def _fixed(words: type[StrEnum]) -> dict[str, str]:
    return {str(word): "" for word in words}
