"""Write a review's extracts, or empty rows for new ones, as a workbook."""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from io import BytesIO
from itertools import zip_longest
from typing import TYPE_CHECKING

from evsyn.extraction.plan import Plan
from evsyn.extraction.sheet import paint
from evsyn.extraction.sheet.column import Tab
from evsyn.extraction.sheet.guide import LISTS, STUDIES, add_guides, comment_of, list_ranges
from evsyn.extraction.sheet.pick_lists import fingerprint, pick_lists
from evsyn.extraction.sheet.tabs import tabs
from evsyn.extraction.sheet.values import study_rows
from evsyn.extraction.study import Study

if TYPE_CHECKING:
    from openpyxl import Workbook
    from openpyxl.worksheet.worksheet import Worksheet

READ_ME = "Read me"
#: What belongs in a column stands above the row of the headings, the extracts below it.
HEADING_ROW = 2
SPARE_ROWS = 200
_ABOUT_HEIGHT, _HEADING_HEIGHT = 62, 32

Lists = Mapping[str, Mapping[str, str]]


@dataclass(frozen=True, slots=True)
class SheetWords:
    """The sentences that stand in a workbook.

    Parameters
    ----------
    read_me : tuple of str
        Lines of the first sheet; the first is its title.
    about : mapping of str to str
        What belongs in a column, by its heading, where more is to be said than its field says.
    meanings : mapping of str to str
        Meanings of words that no plan declares.
    pick, whole : str
        What is said of a cell that holds no word of its list, or no whole number.
    mark : str
        The mark of an invented review; empty for a real one.
    """

    read_me: tuple[str, ...]
    about: Mapping[str, str]
    meanings: Mapping[str, str]
    pick: str
    whole: str
    mark: str = ""


def workbook_bytes(
    plan: Plan,
    studies: Sequence[Study],
    words: SheetWords,
    watched: Callable[[Sequence[Study]], Iterable[Study]] = iter,
) -> bytes:
    """Return the workbook of a review.

    Parameters
    ----------
    plan : Plan
        The plan, from which columns and lists are made.
    studies : sequence of Study
        Extracts that fill the first rows; may be empty.
    words : SheetWords
        Its sentences.
    watched : callable
        Takes the studies and yields them one by one, so that a caller can show progress.
    """
    from openpyxl import Workbook

    book = Workbook(write_only=True)
    painter = paint.Painter(book)
    lists = _told(pick_lists(plan), words.meanings)
    _read_me(book, painter, (*words.read_me, f"{plan.review} {plan_mark(plan)}"))
    made = tabs(plan)
    sheets = [_opened(book, painter, tab, lists, words) for tab in made]
    ends = _filled(sheets, painter, made, watched(studies))
    studies_named = f"{STUDIES}!$A${HEADING_ROW + 1}:$A${ends[0] + SPARE_ROWS}"
    ranges = {**list_ranges(lists), STUDIES: studies_named}
    for sheet, tab, end in zip(sheets, made, ends, strict=True):
        rows = (HEADING_ROW + 1, end + SPARE_ROWS)
        add_guides(sheet, tab, ranges, rows, (words.pick, words.whole))
        sheet.auto_filter.ref = f"A{HEADING_ROW}:{_letter(len(tab.columns))}{rows[1]}"
    _lists(book, painter, lists)
    kept = BytesIO()
    book.save(kept)
    return kept.getvalue()


def plan_mark(plan: Plan) -> str:
    """Return the fingerprint of the plan's columns and words."""
    headings = {tab.name: [column.heading for column in tab.columns] for tab in tabs(plan)}
    return fingerprint(headings, pick_lists(plan))


def _told(lists: Lists, meanings: Mapping[str, str]) -> Lists:
    return {
        name: {word: said or meanings.get(word, "") for word, said in words.items()}
        for name, words in lists.items()
    }


def _filled(
    sheets: Sequence["Worksheet"],
    painter: paint.Painter,
    made: Sequence[Tab],
    studies: Iterable[Study],
) -> list[int]:
    """Write the rows of every study, and return the last row of each sheet."""
    columns = [tab.columns for tab in made]
    styles = [[paint.style_of(column) for column in tab.columns] for tab in made]
    ends = [HEADING_ROW] * len(sheets)
    for study in studies:
        for place, rows in enumerate(study_rows(study, columns)):
            for row in rows:
                ends[place] += 1
                paint.fit_height(sheets[place], ends[place], row, columns[place])
                painter.add_row(sheets[place], row, styles[place])
    return ends


def _read_me(book: "Workbook", painter: paint.Painter, lines: Sequence[str]) -> None:
    sheet = book.create_sheet(READ_ME)
    sheet.column_dimensions["A"].width = paint.READ_ME_WIDTH
    _for_paper(sheet, repeated=0)
    for number, line in enumerate(lines, 1):
        style = paint.TITLE if number == 1 else paint.LONG
        height = paint.height_of(line, paint.READ_ME_WIDTH)
        sheet.row_dimensions[number].height = (1.4 if number == 1 else 1.2) * height
        painter.add_row(sheet, [line], [style])


def _opened(
    book: "Workbook", painter: paint.Painter, tab: Tab, lists: Lists, words: SheetWords
) -> "Worksheet":
    """Begin a sheet: widths, what belongs in each column, and the headings."""
    sheet: Worksheet = book.create_sheet(tab.name)
    sheet.freeze_panes = f"{_letter(len(tab.names) + 1)}{HEADING_ROW + 1}"
    sheet.row_dimensions[1].height = _ABOUT_HEIGHT
    sheet.row_dimensions[HEADING_ROW].height = _HEADING_HEIGHT
    _for_paper(sheet, HEADING_ROW)
    if words.mark and sheet.oddHeader is not None:
        sheet.oddHeader.center.text = words.mark
    above, headings = [], []
    for place, column in enumerate(tab.columns, 1):
        width = sheet.column_dimensions[_letter(place)]
        width.width, width.number_format = paint.width_of(column), paint.format_of(column)
        about = words.about.get(column.heading, column.about)
        above.append(f"{words.mark}: {about}" if words.mark and place == 1 else about)
        style = paint.NEEDED if column.needed else paint.HEADING
        heading = painter.cell(sheet, column.heading, style)
        heading.comment = comment_of(about, lists.get(column.words, {}))
        headings.append(heading)
    painter.add_row(sheet, above, [paint.ABOUT] * len(above))
    sheet.append(headings)
    return sheet


def _for_paper(sheet: "Worksheet", repeated: int) -> None:
    """Print a sheet as wide as the paper, its first rows repeated on every page."""
    from openpyxl.worksheet.properties import PageSetupProperties

    sheet.page_setup.orientation = "landscape"
    sheet.page_setup.fitToHeight = 0
    sheet.sheet_properties.pageSetUpPr = PageSetupProperties(fitToPage=True)
    if repeated:
        sheet.print_title_rows = f"1:{repeated}"


def _lists(book: "Workbook", painter: paint.Painter, lists: Lists) -> None:
    """Write the sheet of lists: two columns a list, its words and what they mean."""
    sheet = book.create_sheet(LISTS)
    sheet.freeze_panes = "A2"
    _for_paper(sheet, 1)
    for place in range(len(lists)):
        for side, width in ((1, 24), (2, 34)):
            sheet.column_dimensions[_letter(2 * place + side)].width = width
    heads = [part for name in lists for part in (name, None)]
    painter.add_row(sheet, heads, [paint.HEADING] * len(heads))
    nothing = (None, None)
    for pairs in zip_longest(*(words.items() for words in lists.values()), fillvalue=nothing):
        cells = [part or None for pair in pairs for part in pair]
        painter.add_row(sheet, cells, [paint.PLAIN] * len(cells))


def _letter(place: int) -> str:
    from openpyxl.utils import get_column_letter

    return str(get_column_letter(place))
