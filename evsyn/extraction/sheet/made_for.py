"""For which review and which words a workbook was made, and what the plan says now."""

import re
from collections.abc import Iterator, Mapping

from evsyn.extraction.plan import Plan
from evsyn.extraction.sheet.guide import LISTS
from evsyn.extraction.sheet.make import READ_ME, plan_mark
from evsyn.extraction.sheet.opened import Grid
from evsyn.extraction.sheet.pick_lists import pick_lists
from evsyn.extraction.sheet.table import SheetTable
from evsyn.extraction.sheet.told import fault, note
from evsyn.terms import Finding

_MARK = re.compile(r"(\S+) ([0-9a-f]{12})")


def made_for(
    file: str, plan: Plan, grids: Mapping[str, Grid], tables: tuple[SheetTable, ...]
) -> Iterator[Finding]:
    """Yield what tells that a workbook is of another review, or of an older plan of this one.

    Parameters
    ----------
    file : str
        Name of the workbook.
    plan : Plan
        The plan as it is now.
    grids : mapping of str to Grid
        Cells of the sheet of guidance and of the sheet of lists.
    tables : tuple of SheetTable
        The sheets as read.
    """
    marks = [found for cell in _texts(grids.get(READ_ME, {})) if (found := _MARK.fullmatch(cell))]
    if not marks:
        message = f"the sheet {READ_ME} no longer says for which review the workbook was made"
        yield note(file, "", message, "See that it is the right one.")
        return
    review, mark = marks[-1].groups()
    if review != plan.review:
        message = f"the workbook was made for the review '{review}', and this is '{plan.review}'"
        yield fault(file, READ_ME, message, "Give the folder of that review.")
    elif mark != plan_mark(plan):
        changed = [*_words_changed(plan, grids.get(LISTS, {})), *_columns_missing(tables)]
        message = "the plan has changed since the workbook was made"
        if changed:
            message += f": {'; '.join(changed)}"
        cure = "Its lists are the old ones; 'evsyn sheet make' makes one with the new."
        yield note(file, "", message, cure)


def _texts(grid: Grid) -> Iterator[str]:
    for row in sorted(grid):
        yield from (str(cell.value).strip() for cell in grid[row].values())


def _words_changed(plan: Plan, grid: Grid) -> Iterator[str]:
    old = _old_lists(grid)
    now = pick_lists(plan)
    for name in [*old, *(name for name in now if name not in old)]:
        before, after = old.get(name, []), list(now.get(name, ()))
        gone = [word for word in before if word not in after]
        new = [word for word in after if word not in before]
        if gone:
            yield f"{name} without {', '.join(gone)}"
        if new:
            yield f"{name} with {', '.join(new)}"


def _old_lists(grid: Grid) -> dict[str, list[str]]:
    return {
        str(heading.value): [
            str(grid[row][place].value) for row in sorted(grid) if row > 1 and place in grid[row]
        ]
        for place, heading in grid.get(1, {}).items()
    }


def _columns_missing(tables: tuple[SheetTable, ...]) -> Iterator[str]:
    for table in tables:
        missing = [one.heading for one in table.tab.columns if one.heading not in table.letters]
        if missing and table.letters:
            yield f"{table.tab.name} with a column {', '.join(missing)}"
