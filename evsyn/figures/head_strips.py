"""The strips at the head of a page: what is invented, and who may see it."""

from evsyn.figures.measure import text_width, typeset, wrapped
from evsyn.figures.palette import (
    AUDIENCE_GROUND,
    AUDIENCE_INK,
    INVENTED_GROUND,
    INVENTED_INK,
)
from evsyn.figures.paper import Paper
from evsyn.figures.shapes import Box, Group, Line, Rect, Role

#: Free room on either side of the words of a strip, in units of the type size.
_PAD = 1.0

_INKS: dict[Role, tuple[str, str]] = {
    "invented": (INVENTED_GROUND, INVENTED_INK),
    "audience": (AUDIENCE_GROUND, AUDIENCE_INK),
}


def head_strips(paper: Paper, banner: str, mark: str) -> tuple[list[Group], float]:
    """Return the strips over a page, and where they end.

    Two that both fit on one line share it; else one stands under the other.

    Parameters
    ----------
    paper : Paper
        The sheet.
    banner, mark : str
        What is invented; who may see the page. Empty words have no strip.
    """
    said: list[tuple[Role, str]] = [("invented", banner), ("audience", mark)]
    said = [(role, words) for role, words in said if words]
    width, needs = paper.fmt.width, [_need(paper, words) for _, words in said]
    free = width - sum(needs)
    groups: list[Group] = []
    if len(said) > 1 and free >= 0:
        left = bottom = 0.0
        for (role, words), need in zip(said, needs, strict=True):
            right = left + need + free / len(said)
            group, bottom = _strip(paper, role, words, left, right, 0.0)
            groups.append(group)
            left = right
        return groups, bottom
    y = 0.0
    for role, words in said:
        group, y = _strip(paper, role, words, 0.0, width, y)
        groups.append(group)
    return groups, y


def _need(paper: Paper, words: str) -> float:
    return text_width(words, paper.size, bold=True) + 2 * _PAD * paper.size


def _strip(
    paper: Paper, role: Role, words: str, left: float, right: float, top: float
) -> tuple[Group, float]:
    size = paper.size
    ground, ink = _INKS[role]
    lines = wrapped(words, right - left - 2 * _PAD * size + 0.01, size, bold=True)
    bottom = top + paper.line_height * len(lines) + 0.3 * size
    texts = [
        typeset(
            (left + right) / 2,
            paper.baseline(top + 0.15 * size + (i + 0.5) * paper.line_height),
            line,
            size,
            ink,
            anchor="middle",
            bold=True,
        )
        for i, line in enumerate(lines)
    ]
    edge = Line(left, bottom, right, bottom, INVENTED_INK, 0.1 * size)
    return Group(role, (Rect(Box(left, top, right, bottom), ground), edge, *texts)), bottom
