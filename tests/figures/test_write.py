"""What is written is whole, the same each time, and keeps text and sources."""

import re
import subprocess
import sys
from dataclasses import replace
from pathlib import Path
from xml.etree import ElementTree

import matplotlib
import pytest
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure

from evsyn.figures import write as writing
from evsyn.figures.forest import forest_layout
from evsyn.figures.formats import A4, SLIDE, web
from evsyn.figures.ink import draw_page, page_figure
from evsyn.figures.svg import svg_text
from evsyn.figures.write import write_figure
from evsyn.pooling.answer import Show
from tests.figures.made_up import band, content, studies, study

SVG = "{http://www.w3.org/2000/svg}"
HOSTILE = "A<script>&\"'$\\frac$ =1+1 \U0001f9ea אבג \x07 Alder"


def layout(number=6, fmt=A4):
    return forest_layout(content(band(studies(number), show=Show.SOME, unit=True)), fmt)


def hostile():
    lines = (study(2, 40, label=HOSTILE, file='a b/"<x>.yaml'), study(1, 40))
    said = content(band(lines, title=HOSTILE, show=Show.TWO, sentence=HOSTILE), title=HOSTILE)
    return forest_layout(said, A4)


@pytest.mark.parametrize("suffix", [".png", ".svg", ".pdf"])
def test_two_writes_are_the_same_bytes(tmp_path: Path, suffix: str) -> None:
    one, other = tmp_path / f"one{suffix}", tmp_path / f"other{suffix}"
    assert write_figure(layout(), one) == (one,)
    write_figure(layout(), other)
    assert one.read_bytes() == other.read_bytes()
    assert {path.name for path in tmp_path.iterdir()} == {one.name, other.name}


def test_svg_has_one_title_a_study_with_file_and_line() -> None:
    root = ElementTree.fromstring(svg_text(layout(12)))
    rows = [group for group in root.iter(f"{SVG}g") if group.get("class") == "study"]
    assert len(rows) == 12
    for row in rows:
        (title,) = row.findall(f"{SVG}title")
        found = re.search(r"(\S+\.yaml), line (\d+)", title.text or "")
        assert found
        assert row.get("id") == f"source-{found[1]}-line-{found[2]}"
    ids = [element.get("id") for element in root.iter() if element.get("id")]
    assert len(ids) == len(set(ids))


def test_svg_watermark_lets_rows_and_their_titles_through() -> None:
    root = ElementTree.fromstring(svg_text(layout(6)))
    (mark,) = (group for group in root.iter(f"{SVG}g") if group.get("class") == "watermark")
    assert mark.get("pointer-events") == "none"
    assert all(0 < float(text.get("fill-opacity") or 1) < 0.25 for text in mark)
    page = layout(6).pages[0]
    drawn = [text for text in draw_page(page).texts if text.get_text() == "INVENTED"]
    assert all(text.get_alpha() < 0.25 for text in drawn)
    assert drawn


def test_svg_keeps_text_as_text() -> None:
    root = ElementTree.fromstring(svg_text(layout(6)))
    written = {text.text for text in root.iter(f"{SVG}text")}
    page = layout(6).pages[0]
    assert {text.words for group in page.groups for text in group.texts} == written
    assert not list(root.iter(f"{SVG}path"))


def test_svg_is_as_large_as_its_sheet() -> None:
    root = ElementTree.fromstring(svg_text(layout(6, SLIDE)))
    assert (root.get("width"), root.get("height")) == ("960pt", "540pt")
    assert ElementTree.fromstring(svg_text(layout(6, web(360)))).get("width") == "360px"


def test_names_cannot_break_out_of_the_svg() -> None:
    text = svg_text(hostile())
    root = ElementTree.fromstring(text)
    assert "<script" not in text
    assert not list(root.iter(f"{SVG}script"))
    assert "\x07" not in text


@pytest.mark.parametrize("suffix", [".png", ".pdf"])
def test_names_cannot_upset_the_pen(tmp_path: Path, suffix: str) -> None:
    (path,) = write_figure(hostile(), tmp_path / f"f{suffix}")
    assert path.stat().st_size > 5000


def test_pdf_holds_every_page_with_embedded_type_42_letters(tmp_path: Path) -> None:
    pages = layout(200)
    (path,) = write_figure(pages, tmp_path / "f.pdf")
    raw = path.read_bytes()
    assert len(re.findall(rb"/Type /Page\b", raw)) == len(pages.pages)
    assert b"/FontFile2" in raw
    assert b"/Type3" not in raw
    assert b"CreationDate" not in raw


def test_later_pages_take_a_number(tmp_path: Path) -> None:
    pages = layout(200)
    written = write_figure(pages, tmp_path / "f.svg")
    assert [path.name for path in written][:2] == ["f.svg", "f-2.svg"]
    assert len(written) == len(pages.pages)
    assert all(path.is_file() for path in written)


def test_extensions_without_a_pen_are_refused(tmp_path: Path) -> None:
    for name in ("f.docx", "f"):
        with pytest.raises(ValueError, match=r"\.png, \.svg, \.pdf"):
            write_figure(layout(), tmp_path / name)
    assert not list(tmp_path.iterdir())


def test_a_failure_leaves_nothing_new_and_the_old_file_whole(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    target = tmp_path / "f.svg"
    target.write_text("old", encoding="utf-8")
    whole = svg_text

    def fails_on_page_two(figure, page=0):
        if page == 1:
            raise OSError("no room on the disk")
        return whole(figure, page)

    monkeypatch.setattr(writing, "svg_text", fails_on_page_two)
    with pytest.raises(OSError, match="no room"):
        write_figure(layout(200), target)
    assert target.read_text(encoding="utf-8") == "old"
    assert [path.name for path in tmp_path.iterdir()] == ["f.svg"]


def test_drawing_returns_the_axes_and_touches_no_pyplot() -> None:
    page = layout().pages[0]
    figure = Figure(figsize=(6, 9))
    FigureCanvasAgg(figure)
    ax = figure.add_subplot()
    assert draw_page(page, ax) is ax
    assert draw_page(page).figure is not figure
    before = dict(matplotlib.rcParams)
    page_figure(page)
    assert dict(matplotlib.rcParams) == before


def test_type_shrinks_with_the_axes_it_is_drawn_on() -> None:
    page = layout().pages[0]
    full = draw_page(page).texts[0].get_fontsize()
    figure = Figure(figsize=(page.width / 144, page.height / 144))
    FigureCanvasAgg(figure)
    assert draw_page(page, figure.add_axes((0, 0, 1, 1))).texts[0].get_fontsize() == pytest.approx(
        full / 2
    )


def test_figure_is_drawn_at_the_size_of_the_sheet() -> None:
    width, height = page_figure(layout(6, SLIDE).pages[0]).get_size_inches()
    assert (width, height) == pytest.approx((960 / 72, 540 / 72))


def test_every_text_is_drawn_once() -> None:
    page = layout().pages[0]
    drawn = sorted(text.get_text() for text in draw_page(page).texts)
    assert drawn == sorted(text.words for group in page.groups for text in group.texts)


def test_a_changed_number_changes_the_file() -> None:
    said = content(band(studies(6), show=Show.SOME))
    other = replace(said, bands=(replace(said.bands[0], lines=studies(6, seed=8)),))
    assert svg_text(forest_layout(said, A4)) != svg_text(forest_layout(other, A4))


def test_layout_and_svg_need_no_drawing_library_until_they_draw() -> None:
    code = (
        "import sys, evsyn.figures.forest, evsyn.figures.svg, evsyn.figures.write;"
        "print(sorted({'matplotlib', 'pandas', 'statsmodels', 'scipy.stats'} & set(sys.modules)))"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"
