"""Open strokes in ink and in SVG."""

from xml.etree import ElementTree

import numpy as np
import pytest

from evsyn.figures.formats import A4
from evsyn.figures.funnel import funnel_layout
from evsyn.figures.ink import draw_page
from evsyn.figures.own_count import OwnCount
from evsyn.figures.shapes import FigureLayout, Group, Page, Polyline
from evsyn.figures.strip import strip_layout
from evsyn.figures.svg import svg_text
from evsyn.figures.write import write_figure
from tests.figures.made_up_funnels import around_target, counts
from tests.figures.made_up_strips import exact, strip, strips

SVG = "{http://www.w3.org/2000/svg}"
RUN = ((10.0, 10.0), (50.0, 10.0), (50.0, 40.0))


def drawn(*, dashed: bool) -> FigureLayout:
    page = Page(100, 60, (Group("limits", (Polyline(RUN, "#123456", 2.0, dashed),)),))
    return FigureLayout("t", "d", "pt", (page,))


@pytest.mark.parametrize("dashed", [False, True])
def test_svg_strokes_are_open_and_dashed_where_asked(dashed: bool) -> None:
    (line,) = ElementTree.fromstring(svg_text(drawn(dashed=dashed))).iter(f"{SVG}polyline")
    assert line.get("points") == "10,10 50,10 50,40"
    assert line.get("fill") == "none"
    assert line.get("stroke-dasharray") == ("8 6" if dashed else None)


def test_ink_follows_the_points() -> None:
    ax = draw_page(drawn(dashed=True).pages[0])
    (line,) = ax.lines
    np.testing.assert_allclose(line.get_xydata(), RUN)
    assert line.get_linestyle() == "--"


@pytest.mark.parametrize("suffix", [".png", ".svg", ".pdf"])
def test_both_figures_are_written(tmp_path, suffix: str) -> None:
    pages = strips(exact(3, 27), strip(OwnCount.one_of(range(8, 13), 40), 40))
    for layout in (strip_layout(pages, A4), funnel_layout(around_target(counts(3)), A4)):
        (path,) = write_figure(layout, tmp_path / f"f{suffix}")
        assert path.stat().st_size > 2000


def test_ids_are_unique_where_counts_share_a_line() -> None:
    layout = strip_layout(strips(exact(3, 27), exact(2, 19), exact(1, 8)), A4)
    root = ElementTree.fromstring(svg_text(layout))
    ids = [element.get("id") for element in root.iter() if element.get("id")]
    assert len(ids) == 3
    assert len(set(ids)) == 3
