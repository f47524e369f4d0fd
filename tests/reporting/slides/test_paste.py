"""Figures alone, to be pasted: on nothing, at two widths, with their marks."""

import struct
from io import BytesIO

from lxml import etree
from PIL import Image

from evsyn.reporting.slides import paste_figures
from tests.reporting.slides.test_talk import CONTENT

READ = CONTENT.outcomes[0].strata[1].answers[0].pooled.answer.reading.pooled
FILES = paste_figures(CONTENT)
SVG = "{http://www.w3.org/2000/svg}"


def test_every_forest_comes_as_svg_and_png_at_both_widths():
    stems = {
        f"forest-{outcome}-{stratum}-{width}"
        for outcome in ("migration", "reobstruction")
        for stratum in ("device_generation", "intent")
        for width in ("slide", "column")
    }
    assert set(FILES) == {f"{stem}.{kind}" for stem in stems for kind in ("svg", "png")}


def test_drawings_have_no_ground_and_their_width():
    for name, held in FILES.items():
        if not name.endswith(".svg"):
            continue
        root = etree.fromstring(held)
        assert root.get("width") == ("960pt" if "-slide" in name else "252pt")
        assert all(child.tag != f"{SVG}rect" for child in root)


def test_pictures_are_transparent():
    for name, held in FILES.items():
        if name.endswith(".png"):
            width, _ = struct.unpack(">II", held[16:24])
            assert width == (2666 if "-slide" in name else 700)
            with Image.open(BytesIO(held)) as picture:
                assert picture.mode == "RGBA"
                assert picture.getpixel((1, picture.height - 2))[3] == 0


def test_each_carries_status_and_mark_and_the_same_digits_at_both_widths():
    def words(name: str) -> str:
        return " ".join(" ".join(etree.fromstring(FILES[name]).itertext()).split())

    for width in ("slide", "column"):
        told = words(f"forest-migration-intent-{width}.svg")
        assert "INVENTED DATA: no real patients or units" in told
        assert "plan fixed 2026-02-09" in told
        assert "9.4% (6.6% to 13.3%)" in told or "9.4%" in told
    assert paste_figures(CONTENT) == FILES
