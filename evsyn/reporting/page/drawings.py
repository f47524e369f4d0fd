"""Figures inside the page: one drawing for narrow screens, one for wide ones and for paper."""

from dataclasses import dataclass, replace

from evsyn.figures.formats import web
from evsyn.figures.shapes import FigureLayout, Group, Page
from evsyn.figures.svg import svg_text
from evsyn.reporting.page.markup import Html, element, joined, opening, paragraphs, shown, words
from evsyn.wording.report_page import FIGURE_HELP, NOT_DRAWN

#: A phone of 360 pixels less the edges of the page, and the width of a printed page.
NARROW, WIDE = web(336), web(760)

#: A drawing up to this height is put on one sheet of paper.
_ONE_SHEET = 1_400


@dataclass(frozen=True, slots=True)
class Drawing:
    """One drawing.

    Parameters
    ----------
    svg : str
        Its SVG.
    height : float
        Its height in pixels.
    """

    svg: str
    height: float

    @property
    def size(self) -> int:
        """Bytes it takes in the page."""
        return len(self.svg.encode("utf-8"))


def drawing(layout: FigureLayout, prefix: str) -> Drawing:
    """Return a laid-out figure as SVG whose ids begin with a prefix of its own.

    Parameters
    ----------
    layout : FigureLayout
        The figure.
    prefix : str
        Unlike that of every other drawing on the page.
    """
    own = _own_ids(layout, prefix)
    pages = [svg_text(own, page) for page in range(len(own.pages))]
    return Drawing(shown("".join(pages)), max(page.height for page in own.pages))


def figure(name: str, narrow: Drawing | None, wide: Drawing | None) -> Html:
    """Return a figure; without a narrow drawing, the sentence that it is not drawn.

    Parameters
    ----------
    name : str
        Its id.
    narrow, wide : Drawing or None
        Its drawings; a narrow one alone serves every screen.
    """
    if narrow is None:
        return paragraphs(NOT_DRAWN)
    drawn = [] if wide is None else [_box("wide", wide)]
    drawn.append(_box("narrow", narrow))
    given = {"class_": "fits"} if (wide or narrow).height <= _ONE_SHEET else {}
    told = Html(f"{opening('p', class_='source', aria_live='polite')}</p>")
    advice = element("p", words(FIGURE_HELP), class_="advice status")
    return element("figure", joined(*drawn, told, advice), id=name, **given)


def _own_ids(layout: FigureLayout, prefix: str) -> FigureLayout:
    def named(group: Group) -> Group:
        return replace(group, id=f"{prefix}{group.id}") if group.id else group

    def kept(page: Page) -> Page:
        return replace(page, groups=tuple(named(group) for group in page.groups))

    return replace(layout, pages=tuple(kept(page) for page in layout.pages))


def _box(kind: str, drawn: Drawing) -> Html:
    return element("div", Html(f"\n{drawn.svg}"), class_=kind)
