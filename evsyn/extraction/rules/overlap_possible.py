"""Patients that may be counted in two studies."""

from collections.abc import Iterator
from itertools import combinations

from evsyn.extraction.review import Review
from evsyn.extraction.rules.rule import ReviewRule
from evsyn.extraction.study import Study
from evsyn.terms import Finding, Severity

NAME = "overlap-possible"


def check(review: Review) -> Iterator[Finding]:
    """Yield a doubt for each pair of studies that may share patients."""
    declared: set[frozenset[str]] = set()
    for study in review.studies:
        for overlap in study.overlaps:
            pair = frozenset((study.study, overlap.study))
            if pair in declared:
                continue
            declared.add(pair)
            if overlap.kind == "certain":
                continue
            yield Finding(
                NAME,
                Severity.DOUBT,
                overlap.source("study"),
                f"may share patients with {overlap.study}: {overlap.reason}",
                "Compare centres and dates; if shared, write kind: certain and which to keep.",
            )
    for one, other in combinations(review.studies, 2):
        if frozenset((one.study, other.study)) in declared:
            continue
        reason = _alarm(one, other)
        if reason:
            yield Finding(
                NAME,
                Severity.DOUBT,
                other.source("study"),
                f"may share patients with {one.study}: {reason}",
                "Add an 'overlaps' entry that says whether they do.",
            )


def _alarm(one: Study, other: Study) -> str:
    here, there = one.setting.centres, other.setting.centres
    if not isinstance(here, list) or not isinstance(there, list):
        return ""
    shared = {name.casefold() for name in here} & {name.casefold() for name in there}
    first, second = one.setting.recruited, other.setting.recruited
    if not shared or first is None or second is None:
        return ""
    if first.from_[:4] <= second.to[:4] and second.from_[:4] <= first.to[:4]:
        return f"same centre ({sorted(shared)[0]}) and overlapping dates"
    return ""


RULE = ReviewRule(
    NAME,
    Severity.DOUBT,
    "Patients counted twice make an answer look surer than it is: declared overlaps, and one "
    "centre with overlapping dates.",
    check,
)
