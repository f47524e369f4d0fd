"""What the sheets would change in one study's file, or put into a new one."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from evsyn.extraction.record import FORMAT
from evsyn.extraction.sheet.column import Column
from evsyn.extraction.sheet.table import SheetRow, SheetTable
from evsyn.extraction.sheet.values import Shown, meant, shown, shown_row
from evsyn.extraction.study import Arm, Count, Study
from evsyn.extraction.writing.edit import Change

Path = tuple[str | int, ...]


@dataclass(frozen=True, slots=True)
class Edit:
    """A value of a file that a cell changes, or would have emptied.

    Parameters
    ----------
    cell : str
        The cell, as ``Counts!E14``.
    file : str
        The file.
    path : tuple of str or int
        Keys down to the value.
    what : str
        The value in words: arm, outcome, heading.
    before, after : str, int or None
        What stands in the file, and in the cell.
    """

    cell: str
    file: str
    path: Path
    what: str
    before: Shown
    after: Shown


@dataclass(slots=True)
class Draft:
    """One study as the sheets tell it.

    Parameters
    ----------
    name, file : str
        The study, and its file.
    study : Study or None
        Its extract as it stands; ``None`` for a new one.
    record : dict
        What a new file holds.
    edits, emptied : list of Edit
        Values to change; values that stand in the file and not in their cells.
    changes : list of Change
        All that is to be set in an existing file.
    cells : dict of tuple to str
        The cell each value came from, by its path.
    headings : dict of tuple to str
        The heading each value stands under, by its path.
    added : list of str
        New arms and counts of an existing file, in words.
    seen : set of tuple of str
        Arms and counts the sheets hold.
    """

    name: str
    file: str
    study: Study | None
    record: dict[str, Any] = field(default_factory=dict)
    edits: list[Edit] = field(default_factory=list)
    emptied: list[Edit] = field(default_factory=list)
    changes: list[Change] = field(default_factory=list)
    cells: dict[Path, str] = field(default_factory=dict)
    headings: dict[Path, str] = field(default_factory=dict)
    added: list[str] = field(default_factory=list)
    seen: set[tuple[str, ...]] = field(default_factory=set)
    new_arms: dict[str, dict[str, Any]] = field(default_factory=dict)

    @property
    def arms(self) -> list[str]:
        """Names of the arms, those of the file first."""
        old = [] if self.study is None else [arm.arm for arm in self.study.arms]
        return [*old, *self.new_arms]

    def take_study(self, table: SheetTable, row: SheetRow, *, invented: bool) -> None:
        """Take the row of the study itself."""
        self.cells[("study",)] = table.cell(row.number, "study")
        if self.study is not None:
            self._compare(table, row, (), self.study)
            return
        self.record = {"format": FORMAT, "study": self.name}
        if invented:
            self.record["invented"] = True
        self._fill(table, row, (), self.record)

    def take_arm(self, table: SheetTable, row: SheetRow) -> None:
        """Take the row of an arm."""
        name = row.names[-1]
        arm = None if self.study is None else self.study.arm_named(name)
        self.seen.add((name,))
        if arm is None:
            self.new_arms[name] = {"arm": name}
        base = ("arms", self.arms.index(name))
        self.cells[base] = self.cells[(*base, "arm")] = table.cell(row.number, "arm")
        if arm is not None:
            self._compare(table, row, base, arm)
            return
        self._fill(table, row, base, self.new_arms[name])
        if self.study is None:
            self.record.setdefault("arms", []).append(self.new_arms[name])
        else:
            self.changes.append(Change(base, self.new_arms[name]))
            self.added.append(name)

    def take_count(self, table: SheetTable, row: SheetRow) -> None:
        """Take the row of a count, whose arm is known."""
        _, arm, outcome = row.names
        self.seen.add((arm, outcome))
        base = ("arms", self.arms.index(arm), "outcomes", outcome)
        self.cells[base] = table.cell(row.number, "outcome")
        old = None if self.study is None else self.study.arm_named(arm)
        if old is not None and outcome in old.outcomes:
            self._compare(table, row, base, old.outcomes[outcome])
            return
        count: dict[str, Any] = {}
        self._fill(table, row, base, count)
        if old is None:
            self.new_arms[arm].setdefault("outcomes", {})[outcome] = count
        else:
            self.changes.append(Change(base, count))
            self.added.append(f"{arm}.{outcome}")

    def left(self) -> list[str]:
        """Return the arms and counts of the file that the sheets do not hold."""
        if self.study is None:
            return []
        lost = [arm.arm for arm in self.study.arms if (arm.arm,) not in self.seen]
        return lost + [
            f"{arm.arm}.{outcome}"
            for arm in self.study.arms
            for outcome in arm.outcomes
            if (arm.arm, outcome) not in self.seen
        ]

    def _compare(
        self, table: SheetTable, row: SheetRow, base: Path, record: Study | Arm | Count
    ) -> None:
        names: Mapping[str, str] = {name.heading: "" for name in table.tab.names}
        stands = shown_row(table.tab.columns, names, record)
        for column, before in zip(table.tab.columns, stands, strict=True):
            if column.names_row or column.heading not in table.letters:
                continue
            path = (*base, *column.path)
            cell = self.cells[path] = table.cell(row.number, column.heading)
            self.headings[path] = column.heading
            after = _canonical(column, row.values.get(column.heading))
            if after == before or column.heading in row.spoilt:
                continue
            what = " ".join([".".join(row.names[1:]), column.heading]).strip()
            edit = Edit(cell, self.file, path, what, before, after)
            if after is None:
                self.emptied.append(edit)
            else:
                self.edits.append(edit)
                self.changes.append(Change(path, meant(column, after)))

    def _fill(self, table: SheetTable, row: SheetRow, base: Path, record: dict[str, Any]) -> None:
        for column in table.columns:
            if column.names_row:
                continue
            self.cells[*base, *column.path] = table.cell(row.number, column.heading)
            self.headings[*base, *column.path] = column.heading
            after = row.values.get(column.heading)
            if after is not None:
                *above, key = column.path
                _below(record, above)[key] = meant(column, after)


def _canonical(column: Column, cell: Shown) -> Shown:
    """Return a cell as ``make`` would write what it means: two ways to write a list are one."""
    return None if cell is None else shown(meant(column, cell))


def _below(record: dict[str, Any], path: Sequence[str]) -> dict[str, Any]:
    for step in path:
        record = record.setdefault(step, {})
    return record
