"""Patients that may be counted in two studies."""

from collections import defaultdict
from collections.abc import Iterator

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
    at: dict[str, list[Study]] = defaultdict(list)
    for other in review.studies:
        centres = _centres(other)
        for name in centres:
            for one in at[name]:
                pair = frozenset((one.study, other.study))
                if pair in declared or not _dates_meet(one, other):
                    continue
                declared.add(pair)
                yield Finding(
                    NAME,
                    Severity.DOUBT,
                    other.source("study"),
                    f"may share patients with {one.study}: same centre ({name}) and overlapping "
                    "dates",
                    "Add an 'overlaps' entry that says whether they do.",
                )
            at[name].append(other)


def _centres(study: Study) -> list[str]:
    named = study.setting.centres
    return sorted({name.casefold() for name in named}) if isinstance(named, list) else []


def _dates_meet(one: Study, other: Study) -> bool:
    first, second = one.setting.recruited, other.setting.recruited
    if first is None or second is None:
        return False
    return first.from_[:4] <= second.to[:4] and second.from_[:4] <= first.to[:4]


RULE = ReviewRule(
    NAME,
    Severity.DOUBT,
    "Patients counted twice make an answer look surer than it is: declared overlaps, and one "
    "centre with overlapping dates.",
    check,
)
