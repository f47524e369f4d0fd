"""Read a review folder, or a unit file, and run every check."""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from types import MappingProxyType
from typing import TypeVar

from pydantic import BaseModel, ValidationError

from evsyn.extraction.answers import with_answers
from evsyn.extraction.case_log.case import Case
from evsyn.extraction.case_log.merge import with_log
from evsyn.extraction.faults import RULE, nearest, refusals, shown
from evsyn.extraction.plan import Plan
from evsyn.extraction.record import FORMAT
from evsyn.extraction.review import Review
from evsyn.extraction.rules import REVIEW_RULES, UNIT_RULES
from evsyn.extraction.study import Study
from evsyn.extraction.unit import Unit
from evsyn.extraction.unread import unread_files
from evsyn.extraction.yaml_text import Block, Whole, parse_bytes
from evsyn.terms import Finding, Severity, Source

R = TypeVar("R", bound=BaseModel)

PLAN_FILE = "review.yaml"
NO_DRAFTS: Mapping[str, str] = MappingProxyType({})
#: Keys that tell the files beside the extracts: a unit's figures, guidelines, claims of a talk.
OTHER_KINDS = frozenset({"unit", "guidelines", "claims"})
_ORDER = {Severity.FAULT: 0, Severity.DOUBT: 1, Severity.NOTE: 2}


class UnreadableError(Exception):
    """Raised when there is nothing to work with; holds the findings that say why."""

    def __init__(self, findings: Iterable[Finding]) -> None:
        self.findings = tuple(findings)
        super().__init__("; ".join(finding.message for finding in self.findings))


def read_review(
    folder: Path,
    drafts: Mapping[str, str] = NO_DRAFTS,
    watched: Callable[[Sequence[str]], Iterable[str]] = iter,
) -> Review:
    """Read a review folder and check it.

    Parameters
    ----------
    folder : pathlib.Path
        Folder holding ``review.yaml`` and one YAML file a study.
    drafts : mapping of str to str
        Texts that are read in place of files, or beside them, by the name of the file: what the
        review would be, were they written.
    watched : callable
        Takes the names of the files and yields them one by one, so that a caller can show
        progress.

    Returns
    -------
    Review
        Plan, studies that could be read, and all findings together.

    Raises
    ------
    UnreadableError
        If the folder or its plan cannot be read; every fault found is in ``findings``.
    """
    review = read_extracts(folder, drafts, watched)
    findings = list(review.findings)
    for rule in REVIEW_RULES:
        findings += rule.check(review)
    return review.with_findings(_ranked(with_answers(review, findings)))


def read_extracts(
    folder: Path,
    drafts: Mapping[str, str] = NO_DRAFTS,
    watched: Callable[[Sequence[str]], Iterable[str]] = iter,
) -> Review:
    """Read a review folder as :func:`read_review` does, and run no check on what was read."""
    if not folder.is_dir():
        if folder.exists():
            message, cure = "this is a file, and a review is a folder", "Give the file's folder."
        else:
            message, cure = "there is no such folder", "Check the path."
        raise UnreadableError([_fault(str(folder), message, cure, 0)])
    try:
        names = _study_files(folder)
    except OSError as error:
        message = f"the folder cannot be opened ({error.strerror})"
        raise UnreadableError([_fault(str(folder), message, "Check who may read it.")]) from error
    names = sorted({*names, *drafts})
    plan, findings = _read_record(folder, PLAN_FILE, Plan)
    studies: list[Study] = []
    for name in watched(names):
        study, troubles = _read_study(folder, name, drafts.get(name))
        findings += troubles
        if study is not None:
            studies.append(study)
    if plan is None:
        raise UnreadableError(findings)
    studies.sort(key=lambda study: (study.citation.year or 9999, study.study))
    findings += unread_files(folder)
    if not names:
        message = "the folder holds a plan and no study yet"
        cure = "Bring in the first paper: evsyn add."
        findings.append(Finding(RULE, Severity.NOTE, Source(PLAN_FILE, 0), message, cure))
    return Review(folder, plan, tuple(studies), tuple(findings))


@dataclass(frozen=True, slots=True)
class CheckedUnit:
    """A unit's figures with what the checks found; never holds a fault.

    Parameters
    ----------
    unit : Unit
        The figures; where the unit brought a log of cases, with the counts made from it.
    findings : tuple of Finding
        Doubts and notes, the gravest first.
    cases : tuple of Case
        The cases of the log, in its order; empty where there is none.
    """

    unit: Unit
    findings: tuple[Finding, ...]
    cases: tuple[Case, ...] = ()


def read_unit(path: Path, plan: Plan) -> CheckedUnit:
    """Read a unit's own figures, its log of cases too, and check them against the plan.

    Parameters
    ----------
    path : pathlib.Path
        The unit file.
    plan : Plan
        Plan of the review whose words it uses.

    Raises
    ------
    UnreadableError
        If the file has any fault.
    """
    if not path.is_file():
        what = "this is a folder, not a file" if path.is_dir() else "there is no such file"
        raise UnreadableError([_fault(str(path), what, "Give the path of a unit file.", 0)])
    unit, findings = _read_unit_record(path)
    cases: tuple[Case, ...] = ()
    if unit is not None:
        unit, cases, found = with_log(unit, plan, path.parent)
        findings += found
    if unit is not None:
        for rule in UNIT_RULES:
            findings += rule.check(unit, plan)
    if unit is None or any(f.severity is Severity.FAULT for f in findings):
        raise UnreadableError(_ranked(findings))
    return CheckedUnit(unit, _ranked(findings), cases)


def _read_unit_record(path: Path) -> tuple[Unit | None, list[Finding]]:
    root, findings = _read_root(path.parent, path.name)
    if root is None:
        return None, findings
    for key, what in (("review", "the plan of a review"), ("study", "the extract of a study")):
        if key in root and "unit" not in root:
            message = f"this is {what}, not a unit's own figures"
            return None, [_fault(path.name, message, "Give a unit file.", root.key_lines[key])]
    return _validated(root, path.name, Unit)


def _study_files(folder: Path) -> list[str]:
    return sorted(
        path.name
        for path in folder.iterdir()
        if path.suffix.lower() in (".yaml", ".yml")
        and path.name != PLAN_FILE
        and not path.name.startswith(".")
    )


def _read_study(folder: Path, name: str, draft: str | None) -> tuple[Study | None, list[Finding]]:
    root, findings = _read_root(folder, name) if draft is None else _root_of(name, draft.encode())
    if root is None or ("study" not in root and not OTHER_KINDS.isdisjoint(root)):
        return None, findings
    return _validated(root, name, Study)


def read_record(path: Path, model: type[R]) -> tuple[R | None, list[Finding]]:
    """Read one file into a record, and return what keeps it from being read."""
    return _read_record(path.parent, path.name, model)


def read_text(name: str, text: str, model: type[R]) -> tuple[R | None, list[Finding]]:
    """Read a text that is no file yet into a record, and return what keeps it from being read."""
    root, findings = _root_of(name, text.encode())
    return (None, findings) if root is None else _validated(root, name, model)


def _read_record(folder: Path, name: str, model: type[R]) -> tuple[R | None, list[Finding]]:
    root, findings = _read_root(folder, name)
    return (None, findings) if root is None else _validated(root, name, model)


def _read_root(folder: Path, name: str) -> tuple[Block | None, list[Finding]]:
    try:
        raw = (folder / name).read_bytes()
    except FileNotFoundError:
        near = sorted(path.name for path in folder.glob(f"{name}.*"))
        cure = f"Rename {near[0]} to {name}." if near else "Write it, or give another folder."
        return None, [_fault(name, "the file is missing", cure, 0)]
    except OSError as error:
        return None, [_fault(name, f"the file cannot be opened ({error.strerror})", "Check it.")]
    return _root_of(name, raw)


def _root_of(name: str, raw: bytes) -> tuple[Block | None, list[Finding]]:
    parsed = parse_bytes(raw)
    return parsed.root, [
        Finding(RULE, Severity.FAULT, Source(name, t.line), t.message, t.cure)
        for t in parsed.troubles
    ]


def _validated(root: Block, name: str, model: type[R]) -> tuple[R | None, list[Finding]]:
    unfit = _format_fault(root, name)
    if unfit is not None:
        return None, [unfit]
    try:
        return model.model_validate(root, context={"file": name}), []
    except ValidationError as error:
        return None, list(refusals(error, root, name, model))


def _format_fault(root: Block, name: str) -> Finding | None:
    written = root.get("format")
    line = root.key_lines.get("format", 1)
    if written is None:
        others = [key for key in root if key != "format"]
        near = [key for key in others if nearest(key, ["format"]).startswith("Did")]
        cure = f"Write 'format: {FORMAT}' on the first line"
        cure += f" (line {root.key_lines[near[0]]} says '{near[0]}')." if near else "."
        return _fault(name, "'format' is missing", cure, line)
    if not isinstance(written, Whole):
        message = f"'format' must be a whole number without quotes, and is {shown(written)}"
        return _fault(name, message, f"Write 'format: {FORMAT}'.", line)
    if written > FORMAT:
        return _fault(
            name,
            f"the file has format {written}, and this version of evsyn reads format {FORMAT}",
            "Use a newer version of evsyn.",
            line,
        )
    if written < FORMAT:
        message = f"the file has format {written}, which does not exist"
        return _fault(name, message, f"Write 'format: {FORMAT}'.", line)
    return None


def _fault(file: str, message: str, cure: str, line: int = 1) -> Finding:
    return Finding(RULE, Severity.FAULT, Source(file, line), message, cure)


def _ranked(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    weight = {rule.name: number for number, rule in enumerate(REVIEW_RULES)}

    def rank(finding: Finding) -> tuple[int, bool, int, str, int]:
        return (
            _ORDER[finding.severity],
            finding.answer is not None,
            weight.get(finding.rule, -1),
            finding.source.file,
            finding.source.line,
        )

    return tuple(sorted(findings, key=rank))
