"""The page of an outcome that no study here reports: a title, a sentence, and no axis."""

from evsyn.figures.forest.content import ForestContent
from evsyn.figures.forest.foot import status
from evsyn.figures.forest.head import head
from evsyn.figures.forest.sheet import Sheet
from evsyn.figures.formats import PageFormat
from evsyn.figures.sentence_page import sentence_page
from evsyn.figures.shapes import Page


def empty_page(content: ForestContent, fmt: PageFormat) -> Page:
    """Return the one page."""
    sheet = Sheet.across(content, fmt, fmt.sizes[0])
    above, y = head(sheet)
    return sentence_page(
        sheet, above, y, content.words.nothing, lambda top: status(sheet, top, 1, 1)
    )
