"""Figures inside the page: one drawing for narrow screens, one for wide ones and for paper."""

import re
from collections.abc import Mapping
from dataclasses import dataclass, replace
from itertools import pairwise

from evsyn.figures.formats import web
from evsyn.figures.shapes import FigureLayout, Group, Page
from evsyn.figures.svg import svg_text
from evsyn.reporting.page.markup import Html, element, joined, opening, shown, words
from evsyn.reporting.page.slices import cuts, within
from evsyn.wording.page import PageWords
from evsyn.wording.report_page import NOT_DRAWN

#: Greatest height of a drawing that paper shrinks to one sheet: its type stays above 6 points.
ONE_SHEET = 1_360.0

#: A phone of 360 pixels less the edges of the page, and the width of a printed page.
NARROW, WIDE = web(336), web(760)

_ROW = re.compile(r'<g class="(?P<role>[a-z]+)" id="(?P<id>[^"]+)">.*?</g>', re.DOTALL)


@dataclass(frozen=True, slots=True)
class Drawing:
    """One drawing.

    Parameters
    ----------
    svg : str
        Its SVG, one element a slice.
    slices : int
        How many there are; they stand one under the other without a gap.
    """

    svg: str
    slices: int

    @property
    def size(self) -> int:
        """Bytes it takes in the page."""
        return len(self.svg.encode("utf-8"))


def drawing(
    layout: FigureLayout, prefix: str, links: Mapping[str, str] | None = None, *, unit: str = ""
) -> Drawing:
    """Return a laid-out figure as SVG whose ids begin with a prefix of its own.

    Parameters
    ----------
    layout : FigureLayout
        The figure.
    prefix : str
        Unlike that of every other drawing on the page.
    links : mapping, optional
        Where a row leads, by its name in the figure, so that its source is reached by keyboard.
    unit : str
        Where every row of a unit leads.
    """
    svgs: list[str] = []
    for page in _own_ids(layout, prefix).pages:
        whole = (0.0, page.height) if page.height <= ONE_SHEET else cuts(page)
        for top, bottom in pairwise(whole):
            svgs.append(_slice(layout, page, top, bottom, is_first=not svgs))
    svg = _linked(shown("".join(svgs)), prefix, links or {}, unit)
    return Drawing(svg, len(svgs))


def _slice(layout: FigureLayout, page: Page, top: float, bottom: float, *, is_first: bool) -> str:
    """Return what lies between two heights of a page; the figure is described once."""
    height = bottom - top
    one = replace(layout, pages=(replace(page, height=height, groups=within(page, top, bottom)),))
    if not is_first:
        title = PageWords().continued.format(title=layout.title)
        one = replace(one, title=title, description="")
    return svg_text(one, ground=False).replace('viewBox="0 0 ', f'viewBox="0 {top:g} ', 1)


def _linked(svg: str, prefix: str, links: Mapping[str, str], unit: str) -> str:
    def row(found: re.Match[str]) -> str:
        to = links.get(found["id"].removeprefix(prefix), "")
        if found["role"] in ("unit", "chances"):
            to = unit
        return f'<a href="#{to}">{found[0]}</a>' if to else found[0]

    return _ROW.sub(row, svg)


def figure(name: str, narrow: Drawing | None, wide: Drawing | None, said: str = "") -> Html:
    """Return a figure; without a narrow drawing, the sentence that it is not drawn.

    Parameters
    ----------
    name : str
        Its id.
    narrow, wide : Drawing or None
        Its drawings; a narrow one alone serves every screen.
    said : str
        What must be known before it is read, above it.
    """
    if narrow is None:
        return element("p", words(NOT_DRAWN), id=name)
    drawn = [element("figcaption", words(said))] if said else []
    drawn += [] if wide is None else [_box("wide", wide)]
    drawn.append(_box("narrow", narrow))
    given = {"class_": "fits"} if (wide or narrow).slices == 1 else {}
    told = Html(f"{opening('p', class_='source', aria_live='polite')}</p>")
    return element("figure", joined(*drawn, told), id=name, **given)


def _own_ids(layout: FigureLayout, prefix: str) -> FigureLayout:
    def named(group: Group) -> Group:
        return replace(group, id=f"{prefix}{group.id}") if group.id else group

    def kept(page: Page) -> Page:
        return replace(page, groups=tuple(named(group) for group in page.groups))

    return replace(layout, pages=tuple(kept(page) for page in layout.pages))


def _box(kind: str, drawn: Drawing) -> Html:
    return element("div", Html(f"\n{drawn.svg}"), class_=kind)
