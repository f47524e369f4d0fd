"""Where things stand: no overlap, nothing cut, type large enough, marks on every page."""

from dataclasses import replace
from itertools import combinations, pairwise

import pytest

from evsyn.figures.forest import ForestContent, Invented, forest_layout
from evsyn.figures.formats import A4, SLIDE, PageFormat, web
from evsyn.figures.shapes import Box, Circle, Line, Page, Polygon, Rect, Shape, Text
from evsyn.pooling.answer import Show
from evsyn.terms import Better
from tests.figures.made_up import NAMES, SENTENCE, STATUS, band, content, studies, study

FORMATS = {"A4": A4, "slide": SLIDE, "phone": web(360), "laptop": web(900), "tablet": web(720)}
LONG = "Alder-Bilberry-Campion-Dogwood-Eyebright-Foxglove-Gorse-Hornbeam 2009"


def three_bands(number: int, *, invented: Invented = Invented.ALL) -> ForestContent:
    rows = studies(number)
    first, second = number // 2, number * 5 // 6
    return content(
        band(rows[:first], unit=True),
        band(rows[first:second], title="Bridge to surgery", estimate=0.045, wider=True),
        band(rows[second:], title="Mixed or not stated", show=Show.FEW, estimate=0.08),
        invented=invented,
    )


def high() -> ForestContent:
    lines = (*studies(8, share=0.93), study(40, 40, label="Umbel"), study(8, 8, label="Tansy"))
    return content(
        band(lines, estimate=0.93, title="All studies"),
        better=Better.MORE,
        invented=Invented.NOTHING,
    )


def thin() -> ForestContent:
    return content(
        band((study(1, 8, weight=None),), show=Show.ONE, sentence="One study is not a pool."),
        band(
            (study(0, 8, weight=None), study(0, 20, weight=None, label=LONG)),
            title="Beside the scope",
            show=Show.ALL_ZERO,
            sentence="None, 0 of 28 in 2 studies.",
        ),
        band((), title="Radiological", show=Show.NOTHING, sentence="No study here reports it."),
        invented=Invented.NOTHING,
    )


def long_names() -> ForestContent:
    rows = tuple(study(2, 40, label=LONG, marks="adnw", line=20 + i) for i in range(12))
    return content(band(rows, title=f"{LONG} {LONG}", unit=True))


CONTENTS = {
    "5 studies": content(band(studies(5), show=Show.SOME, unit=True)),
    "20 studies": three_bands(20),
    "60 studies": three_bands(60),
    "200 studies": three_bands(200),
    "high": high(),
    "thin": thin(),
    "long names": long_names(),
}
CASES = [
    pytest.param(said, fmt, id=f"{case}, {sheet}")
    for case, said in CONTENTS.items()
    for sheet, fmt in FORMATS.items()
]


def texts(page: Page) -> list[Text]:
    return [t for group in page.groups if group.role != "watermark" for t in group.texts]


def corners(shape: Shape) -> list[tuple[float, float]]:
    match shape:
        case Text():
            box = shape.box
        case Rect():
            box = shape.box
        case Line():
            return [(shape.x1, shape.y1), (shape.x2, shape.y2)]
        case Circle():
            x, y, r = shape.x, shape.y, shape.radius
            box = Box(x - r, y - r, x + r, y + r)
        case Polygon():
            return list(shape.points)
    return [(box.left, box.top), (box.right, box.bottom)]


@pytest.mark.parametrize(("said", "fmt"), CASES)
def test_no_two_texts_overlap(said: ForestContent, fmt: PageFormat) -> None:
    for page in forest_layout(said, fmt).pages:
        ordered = sorted(texts(page), key=lambda text: text.box.top)
        for one, other in combinations(ordered, 2):
            if other.box.top < one.box.bottom:
                assert not one.box.overlaps(other.box), (one.words, other.words)


@pytest.mark.parametrize(("said", "fmt"), CASES)
def test_everything_stands_inside_the_page(said: ForestContent, fmt: PageFormat) -> None:
    for page in forest_layout(said, fmt).pages:
        assert page.width == fmt.width
        assert fmt.height is None or page.height == fmt.height
        for group in page.groups:
            for shape in group.shapes:
                if group.role == "watermark":
                    continue
                for x, y in corners(shape):
                    assert -0.01 <= x <= page.width + 0.01, (group.role, shape)
                    assert -0.01 <= y <= page.height + 0.01, (group.role, shape)


@pytest.mark.parametrize(("said", "fmt"), CASES)
def test_no_mark_of_a_row_runs_into_words(said: ForestContent, fmt: PageFormat) -> None:
    for page in forest_layout(said, fmt).pages:
        for group in (*page.of("study"), *page.of("summary"), *page.of("unit")):
            marks = [s for s in group.shapes if isinstance(s, Circle | Polygon)]
            for mark in marks:
                xs, ys = zip(*corners(mark), strict=True)
                box = Box(min(xs), min(ys), max(xs), max(ys))
                assert not any(box.overlaps(text.box) for text in group.texts), group.title


@pytest.mark.parametrize(("said", "fmt"), CASES)
def test_type_is_large_enough(said: ForestContent, fmt: PageFormat) -> None:
    least = {A4: 7, SLIDE: 14}.get(fmt, 12)
    for page in forest_layout(said, fmt).pages:
        assert min(text.size for group in page.groups for text in group.texts) >= least


@pytest.mark.parametrize(("said", "fmt"), CASES)
def test_bands_lie_below_one_another(said: ForestContent, fmt: PageFormat) -> None:
    for page in forest_layout(said, fmt).pages:
        boxes = [group.shapes[0].box for group in page.of("wash")]
        assert all(a.bottom < b.top for a, b in pairwise(boxes))


@pytest.mark.parametrize(("said", "fmt"), CASES)
def test_status_line_stands_on_every_page(said: ForestContent, fmt: PageFormat) -> None:
    layout = forest_layout(said, fmt)
    for number, page in enumerate(layout.pages, start=1):
        words = " ".join(text.words for group in page.of("status") for text in group.texts)
        turned = f" Page {number} of {len(layout.pages)}." if len(layout.pages) > 1 else ""
        assert words == STATUS + turned


@pytest.mark.parametrize(("said", "fmt"), CASES)
def test_invented_mark_stands_on_every_page_of_invented_data_alone(
    said: ForestContent, fmt: PageFormat
) -> None:
    for page in forest_layout(said, fmt).pages:
        strip = [text.words for group in page.of("invented") for text in group.texts]
        across = [text.words for group in page.of("watermark") for text in group.texts]
        if said.invented is Invented.ALL:
            assert strip[0].startswith("INVENTED")
            assert set(across) == {"INVENTED"}
        else:
            assert not strip
            assert not across


@pytest.mark.parametrize("bands", [1, 2, 3])
def test_60_studies_stand_on_one_page_of_a4(bands: int) -> None:
    rows, each = studies(60), 60 // bands
    parts = [
        band(rows[i * each : (i + 1) * each], title=NAMES[i], sentence=SENTENCE, unit=i == 0)
        for i in range(bands)
    ]
    layout = forest_layout(content(*parts), A4)
    assert len(layout.pages) == 1
    assert len(layout.pages[0].of("study")) == 60


def test_200_studies_turn_pages_and_lose_none() -> None:
    pages = forest_layout(three_bands(200), A4).pages
    assert 3 <= len(pages) <= 5
    assert sum(len(page.of("study")) for page in pages) == 200
    assert sum(len(page.of("summary")) for page in pages) == 3
    named = [text.words for group in pages[1].of("band") for text in group.texts]
    assert named[0] == "Palliation (continued)"


def test_a_summary_is_never_alone_at_the_head_of_a_page() -> None:
    for number in range(55, 80):
        for page in forest_layout(content(band(studies(number), unit=True)), A4).pages:
            assert len(page.of("study")) >= 2


def test_a_slide_holds_a_dozen_studies() -> None:
    layout = forest_layout(content(band(studies(12), unit=True)), SLIDE)
    assert len(layout.pages) == 1
    assert len(layout.pages[0].of("study")) == 12


def test_a_slide_shows_at_most_twenty_rows_then_summaries_and_says_so() -> None:
    for number in range(5, 40):
        said = content(band(studies(number)), title="Perforation")
        pages = forest_layout(said, SLIDE).pages
        rows = len(pages[0].of("study")) + len(pages[0].of("summary"))
        assert len(pages) == 1
        assert rows <= 20
        caption = " ".join(t.words for group in pages[0].of("caption") for t in group.texts)
        fell_back = f"Summaries only: {number} study rows" in caption
        assert fell_back == (not pages[0].of("study"))
        assert len(pages[0].of("study")) in (0, number)
    assert fell_back


def test_a_slide_takes_the_short_words() -> None:
    item = band(studies(5), show=Show.SOME)
    said = content(item)
    brief = replace(
        said, bands=(replace(item, short_sentence="Read 6.0%."),), short_caption="Exact rows."
    )
    words = [t.words for t in texts(forest_layout(brief, SLIDE).pages[0])]
    assert "Read 6.0%." in words
    assert any(line.startswith("Exact rows.") for line in words)
    on_paper = [t.words for t in texts(forest_layout(brief, A4).pages[0])]
    assert "Read 6.0%." not in on_paper


def test_names_of_70_letters_are_cut_with_an_ellipsis_and_kept_whole_in_the_title() -> None:
    assert len(LONG) >= 69
    for fmt in FORMATS.values():
        for page in forest_layout(long_names(), fmt).pages:
            for group in page.of("study"):
                assert any(text.words.endswith("…") for text in group.texts)
                assert LONG in group.title


def test_names_of_ordinary_length_are_not_cut() -> None:
    for said in (CONTENTS["5 studies"], three_bands(20), three_bands(60)):
        for fmt in FORMATS.values():
            for page in forest_layout(said, fmt).pages:
                assert not any("…" in text.words for text in texts(page))


def test_a_caption_that_leaves_no_room_is_refused() -> None:
    said = content(band(studies(5)), caption="Exact intervals. " * 400)
    with pytest.raises(ValueError, match="no room"):
        forest_layout(said, SLIDE)


def test_too_narrow_a_screen_is_refused() -> None:
    with pytest.raises(ValueError, match="320"):
        web(200)


def test_axis_says_which_way_is_better_and_where_it_starts() -> None:
    def axis(said: ForestContent) -> str:
        page = forest_layout(said, A4).pages[0]
        return " ".join(t.words for group in page.of("axis") for t in group.texts)

    rare = axis(three_bands(20))
    assert "← fewer is better · per 100 patients" in rare
    assert "starts" not in rare
    common = axis(high())
    assert "more is better →" in common
    assert "not at 0" in common


def test_description_holds_the_sentences_and_the_status_line() -> None:
    layout = forest_layout(three_bands(20), A4)
    for item in three_bands(20).bands:
        assert item.sentence in layout.description
    assert STATUS in layout.description
