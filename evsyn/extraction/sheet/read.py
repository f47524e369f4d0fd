"""Read a workbook into what it would write: whole new files, and changes in place."""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum
from pathlib import Path
from typing import Any

from evsyn.extraction.load import PLAN_FILE, UnreadableError, read_extracts, read_review
from evsyn.extraction.review import Review
from evsyn.extraction.sheet.column import Tab
from evsyn.extraction.sheet.draft import Draft
from evsyn.extraction.sheet.drafts import Drafts
from evsyn.extraction.sheet.guide import LISTS
from evsyn.extraction.sheet.made_for import made_for
from evsyn.extraction.sheet.make import READ_ME
from evsyn.extraction.sheet.opened import Grid, opened, read_bytes
from evsyn.extraction.sheet.pick_lists import pick_lists
from evsyn.extraction.sheet.placed import placed
from evsyn.extraction.sheet.table import Lists, SheetTable, read_table
from evsyn.extraction.sheet.tabs import ARMS, COUNTS, STUDIES, tabs
from evsyn.extraction.sheet.told import SheetError, fault
from evsyn.extraction.writing.edit import EditError, edited
from evsyn.extraction.writing.text import yaml_text
from evsyn.terms import Finding, Severity

#: First line of an extract, which tells editors what may stand in it.
_HEAD = "yaml-language-server: $schema=schema/study.json"


class Stage(StrEnum):
    """What is being done, for whoever shows progress."""

    READING = "reading"
    DRAFTING = "drafting"
    CHECKING = "checking"


Watched = Callable[[Sequence[Any], Stage], Iterable[Any]]


def unwatched(items: Sequence[Any], stage: Stage) -> Iterable[Any]:
    """Return the items, showing nothing."""
    return items


@dataclass(frozen=True, slots=True)
class SheetReading:
    """What a workbook says that the review's files do not.

    Parameters
    ----------
    drafts : tuple of Draft
        The studies that are new or changed, in the order of the sheet.
    all_drafts : tuple of Draft
        Every study the sheets hold.
    absent : tuple of str
        Studies of the folder of which the sheets hold nothing.
    findings : tuple of Finding
        Faults first; then doubts and notes. While there is a fault nothing may be written.
    texts : mapping of str to str
        What each file is to hold, by its name; empty while there is a fault.
    read : mapping of str to (bytes or None)
        What each of these files held; ``None`` for a new one.
    invented : bool
        Whether the review is made up.
    """

    drafts: tuple[Draft, ...]
    all_drafts: tuple[Draft, ...]
    absent: tuple[str, ...]
    findings: tuple[Finding, ...]
    texts: Mapping[str, str]
    read: Mapping[str, bytes | None]
    invented: bool

    @property
    def faults(self) -> tuple[Finding, ...]:
        """Findings that keep it from being written."""
        return tuple(one for one in self.findings if one.severity is Severity.FAULT)


def read_sheet(path: Path, folder: Path, watched: Watched = unwatched) -> SheetReading:
    """Read a workbook, and check the review as it would be.

    Parameters
    ----------
    path : pathlib.Path
        The workbook.
    folder : pathlib.Path
        Folder of the review.
    watched : callable
        Takes items and what is being done with them, and yields them one by one, so that a caller
        can show progress.

    Raises
    ------
    UnreadableError
        If the workbook, or the review's plan or an extract, cannot be read.
    """
    file = path.name
    try:
        grids = opened(read_bytes(path), [READ_ME, STUDIES, ARMS, COUNTS, LISTS])
        review = as_it_stands(folder, watched)
        lists = pick_lists(review.plan)
        made = [_table(file, tab, grids, lists) for tab in tabs(review.plan)]
    except SheetError as error:
        raise UnreadableError([error.of(file)]) from error
    studies, arms, counts = made
    files = {one.name.casefold(): one.name for one in folder.iterdir()}
    drafts = Drafts(file, review, files)
    drafts.take(studies, arms, counts)
    findings = [*made_for(file, review.plan, grids, (studies, arms, counts))]
    findings += [one for table in made for one in table.findings] + drafts.findings
    held = tuple(drafts.by_study.values())
    changed = {one.file: one for one in held if one.study is None or one.changes}
    read = {
        name: None if one.study is None else (folder / name).read_bytes()
        for name, one in changed.items()
    }
    texts, unset = _texts(file, changed, read, watched)
    findings += unset
    if texts:
        checked = read_review(folder, texts, lambda names: watched(names, Stage.CHECKING))
        spoilt = {(one.source.file, one.source.key_path) for one in findings}
        findings += (
            one
            for one in placed(file, checked.findings, changed)
            # Of a cell that cannot be read, what follows from it says nothing more.
            if (one.source.file, one.source.key_path) not in spoilt
        )
    faults = [one for one in findings if one.severity is Severity.FAULT]
    others = [one for one in findings if one.severity is not Severity.FAULT]
    absent = tuple(one.study for one in review.studies if one.study not in drafts.by_study)
    return SheetReading(
        tuple(changed.values()),
        held,
        absent,
        (*faults, *others),
        {} if faults else texts,
        read,
        review.plan.invented,
    )


def as_it_stands(folder: Path, watched: Watched = unwatched) -> Review:
    """Return a review whose every extract can be read, unchecked; it may have none yet.

    Raises
    ------
    UnreadableError
        If the plan or an extract cannot be read.
    """
    review = read_extracts(folder, watched=lambda names: watched(names, Stage.READING))
    # That a plan has no study yet is no fault here.
    faults = [one for one in review.faults if one.source.file != PLAN_FILE]
    if faults:
        raise UnreadableError(faults)
    return review


def _table(file: str, tab: Tab, grids: Mapping[str, Grid], lists: Lists) -> SheetTable:
    if tab.name not in grids:
        message = f"the workbook has no sheet '{tab.name}'"
        raise SheetError(message, "Take one made by 'evsyn sheet make'.", tab.name)
    return read_table(file, tab, grids[tab.name], lists)


def _texts(
    file: str, drafts: Mapping[str, Draft], read: Mapping[str, bytes | None], watched: Watched
) -> tuple[dict[str, str], list[Finding]]:
    """Return what each file is to hold, and a fault for each value that cannot be put there."""
    texts: dict[str, str] = {}
    unset: list[Finding] = []
    for draft in watched(tuple(drafts.values()), Stage.DRAFTING) if drafts else ():
        old = read[draft.file]
        if old is None:
            texts[draft.file] = yaml_text(draft.record, {(): _HEAD})
            continue
        text = old.decode("utf-8")
        for change in draft.changes:
            try:
                text = edited(text, [change])
            except EditError as error:
                cure = f"Change it in {draft.file} by hand."
                unset.append(fault(file, draft.cells[change.path], str(error), cure))
        texts[draft.file] = text
    return texts, unset
