"""What a workbook says beside its cells: comments, titles, headers, lists of choices, names."""

import re
from collections.abc import Iterator, Mapping
from typing import TYPE_CHECKING, Any

from evsyn.extraction.case_log.raw_table import Remark

if TYPE_CHECKING:
    from openpyxl.workbook import Workbook
    from openpyxl.worksheet.worksheet import Worksheet

_QUOTED = re.compile(r'"([^"]+)"')
_BANDS = ("oddHeader", "oddFooter", "evenHeader", "evenFooter", "firstHeader", "firstFooter")


def remarks_beside(
    values: "Workbook", formulas: "Workbook", places: Mapping[str, str]
) -> Iterator[Remark]:
    """Yield every text of a workbook that stands in no cell.

    Parameters
    ----------
    values, formulas : Workbook
        The same workbook, with the values of its formulas and with their text.
    places : mapping of str to str
        What to call each sheet behind a place on it, by its title; empty for the one that is read.
    """
    about = values.properties
    for text in (about.title, about.subject, about.description, about.keywords, about.category):
        if text:
            yield Remark("the title or a property of the workbook", str(text))
    for name in values.defined_names:
        yield Remark("the name of a range", _apart(name))
    for sheet in values.worksheets:
        yield from _of_sheet(sheet, places[sheet.title])
    for sheet in formulas.worksheets:
        for cell in (cell for row in sheet.iter_rows() for cell in row if cell.data_type == "f"):
            where = f"the formula in cell {cell.coordinate}{places[sheet.title]}"
            yield from (Remark(where, text) for text in _QUOTED.findall(_written(cell.value)))


def _of_sheet(sheet: "Worksheet", place: str) -> Iterator[Remark]:
    for cell in (cell for row in sheet.iter_rows() for cell in row if cell.comment is not None):
        said = "" if cell.comment is None else str(cell.comment.text)
        yield Remark(f"the comment on cell {cell.coordinate}{place}", said)
    for band in _BANDS:
        for part in ("left", "center", "right"):
            text = getattr(getattr(getattr(sheet, band), part), "text", None)
            if text:
                yield Remark(f"the header or footer of the page{place}", str(text))
    for check in sheet.data_validations.dataValidation:
        for text in (check.formula1, check.formula2):
            for one in ",".join(_QUOTED.findall(str(text or ""))).split(","):
                yield Remark(f"a list of choices{place}", one)
        for text in (check.prompt, check.promptTitle, check.error, check.errorTitle):
            yield Remark(f"a list of choices{place}", str(text or ""))
    for name in sheet.defined_names:
        yield Remark(f"the name of a range{place}", _apart(name))


def _apart(name: str) -> str:
    """Return the words of a name that may hold no blanks."""
    return name.replace("_", " ").replace(".", " ")


def _written(formula: Any) -> str:
    """Return the text of a formula; one over a range of cells holds it inside."""
    return str(getattr(formula, "text", None) or formula)
