"""A study, an arm or a paper must not stand twice."""

from collections.abc import Iterator
from pathlib import PurePosixPath

from evsyn.extraction.review import Review
from evsyn.extraction.rules.rule import ReviewRule
from evsyn.terms import Finding, Severity

NAME = "names-unique"


def check(review: Review) -> Iterator[Finding]:
    """Yield a fault for each study or arm name used twice, or unlike its file's name."""
    seen: dict[str, str] = {}
    for study in review.studies:
        place = study.source("study")
        stem = PurePosixPath(place.file).stem
        if stem != study.study:
            yield Finding(
                NAME,
                Severity.FAULT,
                place,
                f"the study is called '{study.study}' and its file '{place.file}'",
                f"Give both the same name, as {study.study}.yaml.",
            )
        if study.study in seen:
            yield Finding(
                NAME,
                Severity.FAULT,
                place,
                f"'{study.study}' is also the name of the study in {seen[study.study]}",
                "Rename one; if both report the same patients, keep one file with 'reports'.",
            )
        seen.setdefault(study.study, place.file)
        arms: dict[str, int] = {}
        for arm in study.arms:
            line = arm.source("arm").line
            if arm.arm in arms:
                yield Finding(
                    NAME,
                    Severity.FAULT,
                    arm.source("arm"),
                    f"the arm '{arm.arm}' stands twice, on lines {arms[arm.arm]} and {line}",
                    "Give each arm a name of its own.",
                )
            arms.setdefault(arm.arm, line)


RULE = ReviewRule(
    NAME,
    Severity.FAULT,
    "Two studies or two arms under one name cannot be told apart, and a study filed under another "
    "name is not found again.",
    check,
)
