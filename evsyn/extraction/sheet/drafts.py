"""Gather the rows of the three sheets into one draft a study."""

import re
from collections.abc import Mapping

from evsyn.extraction.faults import nearest
from evsyn.extraction.record import NAME_PATTERN
from evsyn.extraction.review import Review
from evsyn.extraction.sheet.draft import Draft
from evsyn.extraction.sheet.table import SheetRow, SheetTable
from evsyn.extraction.sheet.told import fault
from evsyn.terms import Finding

_NAME = re.compile(NAME_PATTERN)


class Drafts:
    """The drafts of a workbook, by study, and what keeps rows from being taken.

    Parameters
    ----------
    file : str
        Name of the workbook.
    review : Review
        The review as it stands.
    files : iterable of str
        Names of all files of its folder.
    """

    def __init__(self, file: str, review: Review, files: Mapping[str, str]) -> None:
        self.file = file
        self.by_study: dict[str, Draft] = {}
        self.findings: list[Finding] = []
        self._invented = review.plan.invented
        self._stands = {study.study: study for study in review.studies}
        self._files = files
        # Told once, on the sheet of studies.
        self._refused: set[str] = set()

    def take(self, studies: SheetTable, arms: SheetTable, counts: SheetTable) -> None:
        """Take all rows: those of studies first, then those of arms, then those of counts."""
        for row in studies.rows:
            draft = self._draft(row.names[0]) or self._new(studies, row)
            if draft is not None:
                draft.take_study(studies, row, invented=self._invented)
        for row in arms.rows:
            if (draft := self._known(arms, row)) is not None:
                draft.take_arm(arms, row)
        for row in counts.rows:
            draft = self._known(counts, row)
            if draft is None:
                continue
            arm = row.names[1]
            if arm in draft.arms:
                draft.take_count(counts, row)
                continue
            message = f"'{arm}' is not an arm of the study '{draft.name}'"
            cure = f"Correct it, or give it a row on the sheet {arms.tab.name}."
            if draft.arms:
                cure += f" {nearest(arm, draft.arms)}"
            self._refuse(counts.cell(row.number, "arm"), message, cure)
        for draft in self.by_study.values():
            if not draft.arms:
                message = f"the study '{draft.name}' has no arm"
                cure = f"Give it a row on the sheet {arms.tab.name}: one a group of patients."
                self._refuse(draft.cells[("study",)], message, cure)

    def _draft(self, name: str) -> Draft | None:
        """Return the draft of a study that has one, or has a file."""
        study = self._stands.get(name)
        if name not in self.by_study and study is not None:
            self.by_study[name] = Draft(name, study.source().file, study)
        return self.by_study.get(name)

    def _new(self, table: SheetTable, row: SheetRow) -> Draft | None:
        """Begin the draft of a new study; one whose name no file can have is a fault."""
        name = row.names[0]
        cell = table.cell(row.number, "study")
        taken = self._files.get(f"{name}.yaml".casefold())
        also = next((one for one in self.by_study if one.casefold() == name.casefold()), taken)
        if not _NAME.fullmatch(name):
            # Under a name it could have, so that all else about it is told too.
            stand_in = self._stand_in(name)
            message = f"'{name}' is not a name"
            cure = "A name has letters, digits, '_' and '-', and no spaces. "
            cure += f"Write it on every sheet as {stand_in}."
            self._refuse(cell, message, cure)
            self.by_study[name] = Draft(stand_in, f"{stand_in}.yaml", None)
            return self.by_study[name]
        if also is not None:
            message = f"'{name}' cannot name a new study: {also} is there already"
            self._refuse(cell, message, "Write it just as there, or give another name.")
            self._refused.add(name)
        else:
            self.by_study[name] = Draft(name, f"{name}.yaml", None)
            return self.by_study[name]
        return None

    def _stand_in(self, name: str) -> str:
        """Return a name that is like another, and that a file can have."""
        plain = re.sub("[^A-Za-z0-9_-]+", "-", name).strip("-_") or "study"
        taken = {*self._files, *(draft.file.casefold() for draft in self.by_study.values())}
        free = (plain, *(f"{plain}-{number}" for number in range(2, len(taken) + 3)))
        return next(one for one in free if f"{one}.yaml".casefold() not in taken)

    def _known(self, table: SheetTable, row: SheetRow) -> Draft | None:
        name = row.names[0]
        draft = self._draft(name)
        if draft is None and name not in self._refused:
            message = f"'{name}' is not a study of the sheet Studies, nor of the folder"
            known = [*self._stands, *self.by_study]
            cure = "Correct it, or give it a row on the sheet Studies."
            if known:
                cure += f" {nearest(name, known)}" if len(known) <= 8 else ""
            self._refuse(table.cell(row.number, "study"), message, cure)
        return draft

    def _refuse(self, cell: str, message: str, cure: str) -> None:
        self.findings.append(fault(self.file, cell, message, cure))
