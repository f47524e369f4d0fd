"""The page of an outcome that no study here reports: a title, a sentence, and no axis."""

from evsyn.figures.forest.content import ForestContent
from evsyn.figures.forest.foot import status
from evsyn.figures.forest.head import head
from evsyn.figures.forest.sheet import Sheet
from evsyn.figures.formats import PageFormat
from evsyn.figures.measure import typeset, wrapped
from evsyn.figures.palette import INK
from evsyn.figures.shapes import Group, Page, Shape


def empty_page(content: ForestContent, fmt: PageFormat) -> Page:
    """Return the one page, no higher than its words; a slide keeps its height."""
    sheet = Sheet.across(content, fmt, fmt.sizes[0])
    above, y = head(sheet)
    shapes: list[Shape] = []
    for words in wrapped(content.words.nothing, sheet.right - sheet.left, sheet.size):
        y += sheet.line_height
        shapes.append(typeset(sheet.left, y - 0.26 * sheet.size, words, sheet.size, INK))
    low = y + sheet.size
    if fmt.is_slide and fmt.height is not None:
        low = max(low, fmt.height - 0.5 * fmt.margin - status(sheet, 0, 1, 1)[1])
    last, y = status(sheet, low, 1, 1)
    whole = fmt.height if fmt.is_slide and fmt.height is not None else y + 0.5 * fmt.margin
    return Page(fmt.width, whole, (*above, Group("sentence", tuple(shapes)), last))
