"""Look at a count as soon as it is typed, before the rest of its study is known."""

from collections.abc import Mapping
from pathlib import Path
from typing import Any

from evsyn.extraction.load import read_text
from evsyn.extraction.plan import Plan
from evsyn.extraction.review import Review
from evsyn.extraction.rules import REVIEW_RULES
from evsyn.extraction.study import Study
from evsyn.extraction.writing.text import yaml_text
from evsyn.terms import Finding, Severity

_NAME = "typed"


def study_typed(
    counts: Mapping[str, Mapping[str, Any]], patients: int | None
) -> tuple[Study | None, list[Finding]]:
    """Return a study of one group with the counts typed so far, or the faults that forbid it.

    Parameters
    ----------
    counts : mapping
        The counts, by outcome.
    patients : int or None
        Patients of the group, where known; else the largest total.
    """
    most = max(count["total"] for count in counts.values())
    record = {
        "format": 1,
        "study": _NAME,
        "citation": {},
        "extracted": {"by": "-", "on": "2000-01-01", "from": "abstract"},
        "arms": [{"arm": _NAME, "patients": patients or most, "outcomes": dict(counts)}],
    }
    study, found = read_text(f"{_NAME}.yaml", yaml_text(record), Study)
    return study, list(found)


def said_of_count(
    plan: Plan, counts: Mapping[str, Mapping[str, Any]], outcome: str, patients: int | None
) -> tuple[Finding, ...]:
    """Return the faults and doubts about one count of a group.

    Parameters
    ----------
    plan : Plan
        The plan whose words it uses.
    counts : mapping
        The counts typed so far, by outcome.
    outcome : str
        The one to look at.
    patients : int or None
        Patients of the group, where known; else the largest total.
    """
    study, found = study_typed(counts, patients)
    if study is not None:
        review = Review(Path(), plan, (study,), ())
        found = [one for rule in REVIEW_RULES for one in rule.check(review)]
    return tuple(
        one
        for one in found
        if one.severity is not Severity.NOTE and outcome in one.source.key_path.split(".")
    )
