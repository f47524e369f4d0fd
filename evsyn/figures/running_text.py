"""Title, captions and status line: words that run across a page."""

from evsyn.figures.head_strips import head_strips
from evsyn.figures.measure import typeset, wrapped
from evsyn.figures.palette import DIM, INK, RULE
from evsyn.figures.paper import Paper
from evsyn.figures.shapes import Group, Line, Role, Shape


def page_head(
    paper: Paper, banner: str, title: str, subtitle: str, mark: str = ""
) -> tuple[list[Group], float]:
    """Return the strips that say what is invented and who may see it, the title, and their end."""
    size, y = paper.size, paper.fmt.margin
    groups, bottom = head_strips(paper, banner, mark)
    if groups:
        y = max(y, bottom + 0.5 * size)
    big = paper.fmt.title_scale * size
    room = paper.right - paper.left
    shapes: list[Shape] = []
    for words in wrapped(title, room, big, bold=True):
        shapes.append(typeset(paper.left, y + 0.95 * big, words, big, INK, bold=True))
        y += 1.2 * big
    for words in wrapped(subtitle, room, size):
        shapes.append(typeset(paper.left, y + 0.95 * size, words, size, DIM))
        y += paper.line_height
    groups.append(Group("title", tuple(shapes)))
    return groups, y + 0.3 * size


def running_lines(
    paper: Paper, role: Role, words: str, top: float, colour: str = DIM
) -> tuple[Group, float]:
    """Return words folded across the page, and where they end."""
    y = top
    shapes: list[Shape] = []
    for line in wrapped(words, paper.right - paper.left, paper.size):
        y += paper.line_height
        shapes.append(typeset(paper.left, y - 0.26 * paper.size, line, paper.size, colour))
    return Group(role, tuple(shapes)), y


def page_status(
    paper: Paper, words: str, numbering: str, top: float, page: int, pages: int
) -> tuple[Group, float]:
    """Return the status line, with the page's number where there are several, and its end."""
    number = " " + numbering.format(page=page, pages=pages) if pages > 1 else ""
    return status_lines(paper, words + number, top)


def spoken_head(banner: str, mark: str) -> str:
    """Return what is said before all else to those who cannot see a figure's strips.

    Examples
    --------
    >>> spoken_head("INVENTED DATA", "Not for circulation.")
    'INVENTED DATA. Not for circulation. '
    """
    return "".join(f"{said.removesuffix('.')}. " for said in (banner, mark) if said)


def status_lines(paper: Paper, words: str, top: float) -> tuple[Group, float]:
    """Return the status line under its rule, and where it ends."""
    rule = Line(paper.left, top, paper.right, top, RULE, 0.06 * paper.size)
    group, y = running_lines(paper, "status", words, top + 0.25 * paper.size)
    return Group("status", (rule, *group.shapes)), y
