"""A page without a figure: a title, a sentence, and the status line."""

from collections.abc import Callable, Sequence

from evsyn.figures.measure import typeset, wrapped
from evsyn.figures.palette import INK
from evsyn.figures.paper import Paper
from evsyn.figures.shapes import Group, Page, Shape


def sentence_page(
    paper: Paper,
    above: Sequence[Group],
    top: float,
    words: str,
    status: Callable[[float], tuple[Group, float]],
) -> Page:
    """Return the one page, no higher than its words; a slide keeps its height.

    Parameters
    ----------
    paper : Paper
        The sheet.
    above, top
        The head of the page, and where it ends.
    words : str
        What is said.
    status : callable
        Gives the status line at a height, and where it ends.
    """
    fmt, y = paper.fmt, top
    shapes: list[Shape] = []
    for line in wrapped(words, paper.right - paper.left, paper.size):
        y += paper.line_height
        shapes.append(typeset(paper.left, y - 0.26 * paper.size, line, paper.size, INK))
    low = y + paper.size
    if fmt.is_slide and fmt.height is not None:
        low = max(low, fmt.height - paper.bottom_margin - status(0)[1])
    last, y = status(low)
    whole = fmt.height if fmt.is_slide and fmt.height is not None else y + paper.bottom_margin
    return Page(fmt.width, whole, (*above, Group("sentence", tuple(shapes)), last))
