"""Read a published pooling from its file, and check it."""

from dataclasses import dataclass
from pathlib import Path

from evsyn.extraction.faults import RULE
from evsyn.extraction.load import UnreadableError, read_record
from evsyn.extraction.yaml_text import parse_bytes
from evsyn.reproduction.doubts import doubts_of
from evsyn.reproduction.faults import faults_of
from evsyn.reproduction.record import PublishedPooling
from evsyn.terms import Finding, Severity, Source

_OTHER_KINDS = {
    "review": "the plan of a review",
    "study": "the extract of a study",
    "unit": "a unit's own figures",
    "guidelines": "guidelines",
    "claims": "the claims of a talk",
}


@dataclass(frozen=True, slots=True)
class CheckedPooling:
    """A published pooling with the doubts about it; never holds a fault."""

    pooling: PublishedPooling
    findings: tuple[Finding, ...]


def read_pooling(path: Path) -> CheckedPooling:
    """Read a published pooling and check it.

    Parameters
    ----------
    path : pathlib.Path
        The file.

    Raises
    ------
    UnreadableError
        If the file has any fault; all are in ``findings``.
    """
    if not path.is_file():
        what = "this is a folder, not a file" if path.is_dir() else "there is no such file"
        raise UnreadableError([_not_a_pooling(str(path), what, 0)])
    root: dict[str, object] = parse_bytes(path.read_bytes()).root or {}
    for key, what in _OTHER_KINDS.items():
        if key in root and "pooling" not in root:
            message = f"this holds {what}, not a published pooling"
            raise UnreadableError([_not_a_pooling(path.name, message, 1)])
    pooling, findings = read_record(path, PublishedPooling)
    if pooling is not None:
        findings += faults_of(pooling)
    if pooling is None or findings:
        raise UnreadableError(sorted(findings, key=lambda one: one.source.line))
    doubts = sorted(doubts_of(pooling), key=lambda one: one.source.line)
    return CheckedPooling(pooling, tuple(doubts))


def _not_a_pooling(file: str, message: str, line: int) -> Finding:
    place = Source(file, line)
    cure = "Give the path of a file typed from a published pooling."
    return Finding(RULE, Severity.FAULT, place, message, cure)
