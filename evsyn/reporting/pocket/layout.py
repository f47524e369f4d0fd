"""The pocket card on one side of paper."""

from dataclasses import replace

from evsyn.figures.formats import A4
from evsyn.figures.invented import watermark
from evsyn.figures.paper import Paper
from evsyn.figures.running_text import page_head, running_lines, status_lines
from evsyn.figures.shapes import FigureLayout, Group, Page
from evsyn.reporting.pocket.answer import Answer
from evsyn.reporting.pocket.card import Card, pocket_card
from evsyn.reporting.pocket.cut import Cut, cuts
from evsyn.reporting.report.content import ReportContent
from evsyn.terms import Source
from evsyn.wording.pocket import left_off, no_room

#: Type sizes tried, largest first; a card is read at arm's length under poor light.
SIZES = (9.5, 9.0, 8.5)
#: Room between two answers, at least and at most, in units of the type size.
_LEAST_GAP, _MOST_GAP = 0.35, 1.3
_SIDE = replace(A4, margin=24, sizes=SIZES, title_scale=1.3)


def pocket_layout(content: ReportContent) -> FigureLayout:
    """Lay a pocket card out on one side of A4.

    The largest type that holds the whole card is taken. At the least, what has no room is left
    off by the rule of :func:`evsyn.reporting.pocket.cut.cuts`, and the card says how much.

    Parameters
    ----------
    content : ReportContent
        The content of the report.

    Raises
    ------
    ValueError
        If title, marks and status line leave no room for one question; it names the longest.
    """
    card = pocket_card(content)
    for size in SIZES:
        page = _page(Cut(card, 0, 0), size)
        if page is not None:
            return _figure(card, page)
    for cut in cuts(card):
        page = _page(cut, SIZES[-1])
        if page is not None:
            return _figure(card, page)
    raise ValueError(no_room(*_longest(content)))


def _longest(content: ReportContent) -> tuple[str, int, Source]:
    """Return the longest of the words that always stand on a card, its length, and its place."""
    plan, item = content.review.plan, content.outcomes[0]
    outcome = plan.outcomes[item.name]
    held = [
        ("title", plan.title, plan.source("title")),
        ("label", outcome.label, outcome.source("label")),
        ("event", outcome.event, outcome.source("event")),
    ]
    if content.unit is not None:
        unit = content.unit.checked.unit
        held.append(("label", unit.label, unit.source("label")))
        if unit.release is not None:
            release = unit.release
            held.append(("approved_by", release.approved_by, release.source("approved_by")))
            held.append(("basis", release.basis, release.source("basis")))
    name, words, source = max(held, key=lambda one: len(one[1]))
    return name, len(words), source


def _figure(card: Card, page: Page) -> FigureLayout:
    told = [card.banner, card.mark, card.title, card.subtitle, card.status]
    description = " ".join(f"{words.rstrip('.')}." for words in told if words)
    return FigureLayout(card.title, description, _SIDE.unit, (page,))


def _page(cut: Cut, size: float) -> Page | None:
    """Return the page at one type size; ``None`` where it does not hold the card."""
    paper, card = Paper(_SIDE, size), cut.card
    height = A4.height or 0.0
    head, top = page_head(paper, card.banner, card.title, card.subtitle, card.mark)
    caption = " ".join(
        part for part in (left_off(cut.sentences, cut.questions), card.caution) if part
    )
    foot, foot_height = _foot(paper, caption, card.status, 0.0)
    room = height - paper.bottom_margin - foot_height - top
    answers = [Answer(paper, i, prompt, card.words) for i, prompt in enumerate(card.prompts)]
    free = (room - sum(answer.height for answer in answers)) / len(answers)
    if free < _LEAST_GAP * size:
        return None
    gap, y = min(free, _MOST_GAP * size), top
    groups = list(head)
    for answer in answers:
        groups += answer.groups(y)
        y += answer.height + gap
    foot, _ = _foot(paper, caption, card.status, height - paper.bottom_margin - foot_height)
    over = watermark(paper, card.invented, card.words.watermark, top, y)
    return Page(_SIDE.width, height, (*groups, *foot, *over))


def _foot(paper: Paper, caption: str, status: str, top: float) -> tuple[list[Group], float]:
    """Return what stands at the foot, and where it ends."""
    words, y = running_lines(paper, "caption", caption, top)
    line, y = status_lines(paper, status, y + 0.4 * paper.size)
    return [words, line], y
