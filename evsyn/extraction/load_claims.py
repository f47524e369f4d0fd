"""Read the claims of a talk, and the guidelines recorded beside a review, and check both."""

from dataclasses import dataclass
from enum import StrEnum
from pathlib import Path
from typing import TypeVar

from pydantic import BaseModel

from evsyn.extraction.claim_rules import CLAIM_RULES, GUIDELINE_RULES
from evsyn.extraction.claims import Claims
from evsyn.extraction.faults import RULE
from evsyn.extraction.guidelines import GUIDELINES_FILE, Guidelines
from evsyn.extraction.load import UnreadableError, read_record
from evsyn.extraction.plan import Plan
from evsyn.extraction.yaml_text import parse_bytes
from evsyn.terms import Finding, Severity, Source

R = TypeVar("R", bound=BaseModel)

_OTHER_KINDS = {
    "review": "the plan of a review",
    "study": "the extract of a study",
    "unit": "a unit's own figures",
    "guidelines": "guidelines",
}


class FileKind(StrEnum):
    """What a file beside a review holds."""

    UNIT = "unit"
    CLAIMS = "claims"
    GUIDELINES = "guidelines"


def kind_of(path: Path) -> FileKind:
    """Return what a file holds by its own words; a unit's figures where it does not tell."""
    root: dict[str, object] = (parse_bytes(path.read_bytes()).root or {}) if path.is_file() else {}
    named = (kind for kind in (FileKind.CLAIMS, FileKind.GUIDELINES) if str(kind) in root)
    return FileKind.UNIT if "unit" in root else next(named, FileKind.UNIT)


@dataclass(frozen=True, slots=True)
class CheckedGuidelines:
    """Guidelines with what the checks found; never holds a fault."""

    guidelines: Guidelines
    findings: tuple[Finding, ...]


@dataclass(frozen=True, slots=True)
class CheckedClaims:
    """Claims with what the checks found; never holds a fault."""

    claims: Claims
    findings: tuple[Finding, ...]


def read_guidelines(folder: Path, plan: Plan) -> Guidelines | None:
    """Read the guidelines recorded in the folder of a review.

    Parameters
    ----------
    folder : pathlib.Path
        Folder of the review.
    plan : Plan
        Its plan.

    Returns
    -------
    Guidelines or None
        ``None`` where the folder holds no ``guidelines.yaml``.

    Raises
    ------
    UnreadableError
        If the file has any fault.
    """
    path = folder / GUIDELINES_FILE
    return check_guidelines(path, plan).guidelines if path.exists() else None


def check_guidelines(path: Path, plan: Plan) -> CheckedGuidelines:
    """Read a file of guidelines and check it against the plan.

    Parameters
    ----------
    path : pathlib.Path
        The file.
    plan : Plan
        Plan of the review it belongs to.

    Raises
    ------
    UnreadableError
        If the file has any fault.
    """
    found, findings = read_record(path, Guidelines)
    if found is not None:
        for rule in GUIDELINE_RULES:
            findings += rule.check(found, plan)
    return CheckedGuidelines(_sound(found, findings), _ranked(findings))


def read_claims(path: Path, plan: Plan, guidelines: Guidelines | None) -> CheckedClaims:
    """Read the claims of a talk and check them against the plan.

    Parameters
    ----------
    path : pathlib.Path
        The claims file.
    plan : Plan
        Plan of the review they are weighed against.
    guidelines : Guidelines or None
        The guidelines recorded beside it.

    Raises
    ------
    UnreadableError
        If the file has any fault.
    """
    if not path.is_file():
        what = "this is a folder, not a file" if path.is_dir() else "there is no such file"
        raise UnreadableError([_not_claims(str(path), what, 0)])
    root: dict[str, object] = parse_bytes(path.read_bytes()).root or {}
    for key, what in _OTHER_KINDS.items():
        if key in root and "claims" not in root:
            raise UnreadableError([_not_claims(path.name, f"this holds {what}, not claims", 1)])
    claims, findings = read_record(path, Claims)
    if claims is not None:
        for rule in CLAIM_RULES:
            findings += rule.check(claims, plan, guidelines)
    return CheckedClaims(_sound(claims, findings), _ranked(findings))


def _not_claims(file: str, what: str, line: int) -> Finding:
    place = Source(file, line)
    return Finding(RULE, Severity.FAULT, place, what, "Give the path of a claims file.")


def _sound(record: R | None, findings: list[Finding]) -> R:
    if record is None or any(one.severity is Severity.FAULT for one in findings):
        raise UnreadableError(_ranked(findings))
    return record


def _ranked(findings: list[Finding]) -> tuple[Finding, ...]:
    faults_first = (Severity.FAULT, Severity.DOUBT, Severity.NOTE)
    return tuple(
        sorted(findings, key=lambda one: (faults_first.index(one.severity), one.source.line))
    )
