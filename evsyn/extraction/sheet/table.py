"""A sheet of a workbook, understood: its columns found, its rows read, each value with its cell."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from evsyn.extraction.faults import nearest
from evsyn.extraction.sheet.cells import said
from evsyn.extraction.sheet.column import Column, Tab
from evsyn.extraction.sheet.opened import Grid
from evsyn.extraction.sheet.tabs import heading_key
from evsyn.extraction.sheet.told import doubt, fault
from evsyn.extraction.sheet.values import Shown
from evsyn.extraction.starting.answers import named_in
from evsyn.terms import Finding

#: Words to pick from, by the name of their list; beside each what the plan calls it.
Lists = Mapping[str, Mapping[str, str]]
#: Rows in which the headings are looked for.
_FIRST_ROWS = 20


@dataclass(frozen=True, slots=True)
class SheetRow:
    """A row that holds something.

    Parameters
    ----------
    number : int
        Its number in the sheet.
    names : tuple of str
        What it is known by: study, arm, outcome.
    values : mapping of str to (str or int)
        What its cells say, by heading; empty cells are left out.
    spoilt : frozenset of str
        Headings of cells that hold something which cannot be read.
    """

    number: int
    names: tuple[str, ...]
    values: Mapping[str, Shown]
    spoilt: frozenset[str] = frozenset()


@dataclass(slots=True)
class SheetTable:
    """A sheet as read.

    Parameters
    ----------
    tab : Tab
        What it should hold.
    lists : mapping
        The words to pick from, with what the plan calls them, by the name of their list.
    letters : dict of str to str
        Letter of each column that is there, by heading.
    rows : list of SheetRow
        Its rows, in order; a row that says the name of one above is left out and is a fault.
    findings : list of Finding
        Faults and doubts of single cells.
    """

    tab: Tab
    lists: Lists = field(default_factory=dict)
    letters: dict[str, str] = field(default_factory=dict)
    rows: list[SheetRow] = field(default_factory=list)
    findings: list[Finding] = field(default_factory=list)

    @property
    def columns(self) -> list[Column]:
        """The columns that are there."""
        return [column for column in self.tab.columns if column.heading in self.letters]

    def cell(self, row: int, heading: str) -> str:
        """Return the name of a cell, as ``Counts!E14``; where the column is missing, of its row."""
        return f"{self.tab.name}!{self.letters.get(heading, 'A')}{row}"


def read_table(file: str, tab: Tab, grid: Grid, lists: Lists) -> SheetTable:
    """Read the cells of a sheet as the rows of its columns.

    Parameters
    ----------
    file : str
        Name of the workbook, for what is told.
    tab : Tab
        The columns.
    grid : Grid
        The cells.
    lists : mapping
        The words to pick from, with what the plan calls them, by the name of their list.
    """
    table = SheetTable(tab, lists)
    heading_row = next(
        (row for row in sorted(grid) if row <= _FIRST_ROWS and _is_heading_row(grid, row)), None
    )
    if heading_row is None:
        message = f"the sheet {tab.name} has no row of headings that begins with 'study'"
        cure = "Copy the row of headings from a workbook made anew."
        table.findings.append(fault(file, f"{tab.name}!A1", message, cure))
        return table
    places = _places(file, table, grid, heading_row)
    missing = [name.heading for name in tab.names if name.heading not in table.letters]
    if missing:
        message = f"the sheet {tab.name} has no column '{missing[0]}'"
        cure = "Copy the row of headings from a workbook made anew."
        table.findings.append(fault(file, f"{tab.name}!A{heading_row}", message, cure))
        return table
    first: dict[tuple[str, ...], int] = {}
    for number in sorted(row for row in grid if row > heading_row):
        row = _row(file, table, number, grid, places)
        if row is None:
            continue
        if row.names in first:
            message = f"'{', '.join(row.names)}' stands already in row {first[row.names]}"
            cure = "Keep one of the two rows, or correct the name."
            cell = table.cell(number, tab.names[-1].heading)
            table.findings.append(fault(file, cell, message, cure))
            continue
        first[row.names] = number
        table.rows.append(row)
    return table


def _is_heading_row(grid: Grid, row: int) -> bool:
    return any(
        isinstance(cell.value, str) and heading_key(cell.value) == "study"
        for cell in grid[row].values()
    )


def _places(file: str, table: SheetTable, grid: Grid, heading_row: int) -> dict[int, Column]:
    """Return which column stands where; a column of no known heading that is used is a fault."""
    from openpyxl.utils import get_column_letter

    known = {heading_key(column.heading): column for column in table.tab.columns}
    used = {place for row, cells in grid.items() if row > heading_row for place in cells}
    places: dict[int, Column] = {}
    for place in sorted(used | set(grid[heading_row])):
        written = grid[heading_row].get(place)
        text = "" if written is None else str(written.value)
        column = known.get(heading_key(text))
        letter = get_column_letter(place)
        cell = f"{table.tab.name}!{letter}{heading_row}"
        if column is None and place in used:
            message = (
                f"'{text}' is not a column of this sheet" if text else "no heading stands here"
            )
            cure = nearest(text, [one.heading for one in table.tab.columns])
            cure = f"Correct the heading, or empty the column. {cure}"
            table.findings.append(fault(file, cell, message, cure))
        elif column is not None and column.heading in table.letters:
            message = f"the heading '{column.heading}' stands twice"
            table.findings.append(fault(file, cell, message, "Keep one of the two columns."))
        elif column is not None:
            table.letters[column.heading] = letter
            places[place] = column
    return places


def _word(table: SheetTable, column: Column, value: Shown) -> Shown:
    """Return the word of a list that is meant by its name or by what the plan calls it."""
    words = table.lists.get(column.words)
    if words is None or not isinstance(value, str):
        return value
    return named_in(value, words) or value


def _row(
    file: str, table: SheetTable, number: int, grid: Grid, places: Mapping[int, Column]
) -> SheetRow | None:
    """Return a row; ``None`` for an empty one, and for one without a name, which is a fault."""
    values: dict[str, Shown] = {}
    spoilt: set[str] = set()
    for place, raw in grid[number].items():
        column = places.get(place)
        if column is None:
            continue
        found = said(column, raw)
        cell = table.cell(number, column.heading)
        if found.wrong:
            spoilt.add(column.heading)
            message, cure = found.wrong
            if "printed" in table.letters:
                beside = f"'printed' ({table.cell(number, 'printed')})"
                cure = cure.replace("'printed'", beside)
            table.findings.append(fault(file, cell, message, cure))
        elif found.value is not None:
            values[column.heading] = _word(table, column, found.value)
            if found.doubtful:
                table.findings.append(doubt(file, cell, *found.doubtful))
    if not values and not spoilt:
        return None
    unnamed = [name.heading for name in table.tab.names if name.heading not in values]
    if unnamed:
        if unnamed[0] not in spoilt:
            message = f"the row has no '{unnamed[0]}'"
            cure = "Fill it in; every row is read by itself."
            table.findings.append(fault(file, table.cell(number, unnamed[0]), message, cure))
        return None
    names = tuple(str(values[name.heading]) for name in table.tab.names)
    return SheetRow(number, names, values, frozenset(spoilt))
