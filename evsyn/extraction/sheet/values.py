"""What a field of an extract looks like in a cell, and what a cell means as a field."""

import re
from collections.abc import Mapping, Sequence
from typing import Any, TypeAlias

from evsyn.extraction.record import Record
from evsyn.extraction.sheet.column import Column, Kind
from evsyn.extraction.sheet.pick_lists import NO, YES
from evsyn.extraction.study import Arm, Study

#: A workbook may spell a carriage return as its number.
_LINE_ENDS = re.compile(r"_x000D_\n?|\r\n?")
#: What stands in a cell.
Shown: TypeAlias = str | int | None


def shown_row(columns: tuple[Column, ...], names: Mapping[str, str], record: Record) -> list[Shown]:
    """Return the cells of one row.

    Parameters
    ----------
    columns : tuple of Column
        The columns of its sheet.
    names : mapping of str to str
        What the row is known by, by heading.
    record : Study, Arm or Count
        What the row stands for.
    """
    return [
        names[column.heading] if column.names_row else shown(written(record, column.path))
        for column in columns
    ]


def study_rows(
    study: Study, columns: Sequence[tuple[Column, ...]]
) -> tuple[list[list[Shown]], list[list[Shown]], list[list[Shown]]]:
    """Return the rows of a study on the sheets of studies, arms and counts."""
    of_study, of_arms, of_counts = columns
    names = {"study": study.study}
    first = [shown_row(of_study, names, study)]
    arms, counts = [], []
    for arm in study.arms:
        arms.append(shown_row(of_arms, {**names, "arm": arm.arm}, arm))
        counts += _count_rows(of_counts, {**names, "arm": arm.arm}, arm)
    return first, arms, counts


def _count_rows(columns: tuple[Column, ...], names: dict[str, str], arm: Arm) -> list[list[Shown]]:
    return [
        shown_row(columns, {**names, "outcome": outcome}, count)
        for outcome, count in arm.outcomes.items()
    ]


def written(record: Any, path: tuple[str, ...]) -> Any:
    """Return a field that was written in the file, and ``None`` for one left out."""
    for step in path:
        if isinstance(record, dict):
            record = record.get(step)
        else:
            name = "from_" if step == "from" else step
            if name not in record.model_fields_set:
                return None
            record = getattr(record, name)
        if record is None:
            return None
    return record


def shown(value: Any) -> Shown:
    """Return a value as its cell holds it.

    Examples
    --------
    >>> shown(4), shown(True), shown(["Alder General", "Birch Infirmary"])
    (4, 'yes', 'Alder General; Birch Infirmary')
    """
    if value is None:
        return None
    if isinstance(value, bool):
        return YES if value else NO
    if isinstance(value, int):
        return int(value)
    if isinstance(value, list):
        between = "\n" if any(";" in name for name in value) else "; "
        return between.join(one_line_end(name) for name in value)
    return one_line_end(str(value))


def meant(column: Column, cell: Shown) -> Any:
    """Return the field that the text or number of a cell stands for."""
    if column.kind is Kind.YES_NO:
        return cell == YES
    if column.kind is Kind.CENTRES and isinstance(cell, str):
        names = cell.split("\n") if "\n" in cell else cell.split(";")
        kept = [name.strip() for name in names if name.strip()]
        return int(kept[0]) if len(kept) == 1 and kept[0].isdecimal() else kept
    return cell


def one_line_end(text: str) -> str:
    """Return a text with line ends of one kind, those that a workbook spells out too."""
    return _LINE_ENDS.sub("\n", text)
