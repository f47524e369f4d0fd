"""A review as read from its folder."""

from dataclasses import dataclass, replace
from pathlib import Path
from typing import Self

from evsyn.extraction.plan import Plan
from evsyn.extraction.study import Study
from evsyn.terms import Finding, Severity


@dataclass(frozen=True, slots=True)
class Review:
    """A plan, its studies, and everything the checks found.

    Parameters
    ----------
    folder : pathlib.Path
        Where it was read.
    plan : Plan
        The plan.
    studies : tuple of Study
        The extracts, by year and name.
    findings : tuple of Finding
        Faults, doubts and notes, the gravest first.
    """

    folder: Path
    plan: Plan
    studies: tuple[Study, ...]
    findings: tuple[Finding, ...] = ()

    @property
    def invented(self) -> bool:
        """Whether anything in the review is made up."""
        return self.plan.invented or any(study.invented for study in self.studies)

    @property
    def faults(self) -> tuple[Finding, ...]:
        """Findings that forbid pooling."""
        return tuple(f for f in self.findings if f.severity is Severity.FAULT)

    @property
    def open_doubts(self) -> tuple[Finding, ...]:
        """Doubts nobody has answered."""
        return tuple(f for f in self.findings if f.is_open)

    def study(self, name: str) -> Study | None:
        """Return the study of that name, or ``None``."""
        return next((study for study in self.studies if study.study == name), None)

    def with_findings(self, findings: tuple[Finding, ...]) -> Self:
        """Return the same review with these findings."""
        return replace(self, findings=findings)
