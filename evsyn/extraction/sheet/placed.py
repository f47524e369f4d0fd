"""Tell what the checks find of a would-be file by the cell it came from."""

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace

from evsyn.extraction.sheet.draft import Draft
from evsyn.terms import Finding, Severity, Source

_WORDS = re.compile(r"[A-Za-z0-9][A-Za-z0-9_-]*")


def placed(
    file: str, findings: Iterable[Finding], drafts: Mapping[str, Draft]
) -> Iterator[Finding]:
    """Yield the faults of a would-be review, and the open doubts that touch what is written.

    Parameters
    ----------
    file : str
        Name of the workbook.
    findings : iterable of Finding
        What the checks found.
    drafts : mapping of str to Draft
        The studies that are written, by the name of their file.
    """
    names = {draft.name for draft in drafts.values()}
    paths = {name: _paths(draft) for name, draft in drafts.items()}
    for finding in findings:
        draft = drafts.get(finding.source.file)
        touched = draft is not None or not names.isdisjoint(_WORDS.findall(finding.message))
        if finding.severity is not Severity.FAULT and not (finding.is_open and touched):
            continue
        cell = ""
        if draft is not None:
            cell = _cell(finding.source.key_path, paths[draft.file])
            if not cell and draft.study is None:
                cell = draft.cells[("study",)]
        if draft is None or not cell:
            yield finding
        else:
            yield replace(_by_heading(finding, draft), source=Source(file, 0, cell))


def _by_heading(finding: Finding, draft: Draft) -> Finding:
    """Name what is wrong by the heading of its column, where the file has another word for it."""
    headings = {".".join(map(str, path)): one for path, one in draft.headings.items()}
    path = finding.source.key_path
    heading, key = headings.get(path), path.rpartition(".")[2]
    if heading is None or heading == key:
        return finding
    told = (finding.message, finding.cure)
    message, cure = (one.replace(f"'{key}'", f"'{heading}'") for one in told)
    return replace(finding, message=message, cure=cure)


def _paths(draft: Draft) -> dict[str, str]:
    """Return the cells by paths as findings write them; a count is also 'arm.outcome'."""
    paths = {".".join(map(str, path)): cell for path, cell in draft.cells.items()}
    arms = draft.arms
    for path, cell in draft.cells.items():
        if len(path) == 4 and path[2] == "outcomes":
            events = draft.cells.get((*path, "events"), cell)
            paths.setdefault(f"{arms[int(path[1])]}.{path[3]}", events)
    return paths


def _cell(path: str, cells: Mapping[str, str]) -> str:
    """Return the cell of a value, of the first value below it, or of the row it stands in."""
    if path in cells:
        return cells[path]
    below = next((cell for one, cell in cells.items() if path and one.startswith(f"{path}.")), "")
    while not below and "." in path:
        path = path.rpartition(".")[0]
        below = cells.get(path, "")
    return below
