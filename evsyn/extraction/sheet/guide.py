"""What guides the one who fills a cell: lists to pick from, and what is said of each column."""

from collections.abc import Mapping
from typing import TYPE_CHECKING

from evsyn.extraction.sheet.column import Kind, Tab

if TYPE_CHECKING:
    from openpyxl.comments import Comment
    from openpyxl.worksheet.worksheet import Worksheet

LISTS, STUDIES = "Lists", "Studies"
#: Letters that a spreadsheet shows beside a cell.
_MOST_SAID, _MOST_TITLE = 250, 30
_AUTHOR = "evsyn"


def list_ranges(lists: Mapping[str, Mapping[str, str]]) -> dict[str, str]:
    """Return where on the sheet of lists the words of each list stand: words, then meanings."""
    from openpyxl.utils import get_column_letter

    ranges: dict[str, str] = {}
    for place, (name, words) in enumerate(lists.items()):
        letter = get_column_letter(2 * place + 1)
        ranges[name] = f"{LISTS}!${letter}$2:${letter}${len(words) + 1}"
    return ranges


def add_guides(
    sheet: "Worksheet",
    tab: Tab,
    ranges: Mapping[str, str],
    rows: tuple[int, int],
    said: tuple[str, str],
) -> None:
    """Add the lists to pick from, and the checks of whole numbers, to the rows of a sheet.

    Parameters
    ----------
    sheet : Worksheet
        The sheet.
    tab : Tab
        Its columns.
    ranges : mapping of str to str
        Where each list stands; that of the studies too.
    rows : tuple of int
        First and last row.
    said : tuple of str
        What is said of a word that is not in its list, and of what is no whole number.
    """
    from openpyxl.utils import get_column_letter
    from openpyxl.worksheet.datavalidation import DataValidation

    pick, whole = said
    for place, column in enumerate(tab.columns, 1):
        words = STUDIES if column.heading == "study" and tab.name != STUDIES else column.words
        if words:
            check = DataValidation("list", formula1=ranges[words], allow_blank=True, error=pick)
        elif column.kind is Kind.WHOLE:
            check = DataValidation(
                "whole", operator="greaterThanOrEqual", formula1="0", allow_blank=True, error=whole
            )
        else:
            continue
        check.errorTitle = check.promptTitle = column.heading[:_MOST_TITLE]
        check.prompt = column.about[:_MOST_SAID]
        check.showErrorMessage = check.showInputMessage = True
        letter = get_column_letter(place)
        check.add(f"{letter}{rows[0]}:{letter}{rows[1]}")
        sheet.data_validations.append(check)


def comment_of(about: str, words: Mapping[str, str]) -> "Comment":
    """Return the remark on a heading: what belongs there, and each word with its meaning."""
    from openpyxl.comments import Comment

    lines = [about, *(f"{word}: {said}" if said else word for word, said in words.items())]
    text = "\n".join(lines)
    shown = sum(1 + len(line) // 50 for line in lines)
    return Comment(text, _AUTHOR, height=30 + 18 * shown, width=340)
