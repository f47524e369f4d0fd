"""A unit's own figures in a talk: in full inside, and outside no more than may be told."""

from dataclasses import replace
from pathlib import Path

import pytest

from evsyn.extraction.load import read_review, read_unit
from evsyn.pooling.disputed import DisputedPool
from evsyn.reporting.audit_page import audit_text
from evsyn.reporting.report.content import report_content
from evsyn.reporting.slides import notes as speaker
from evsyn.reporting.slides import slides_bytes
from evsyn.reporting.slides.unit_figures import outside_funnel
from evsyn.terms import Audience
from evsyn.wording.audience import INSIDE_SHORT, OUTSIDE_SHORT
from tests.reporting.slides import opened as look

DEMO = Path(__file__).parents[3] / "studies" / "demo"
WHOLE = read_review(DEMO)
#: One outcome of the demo, so that the tests are quick.
ONE = {"perforation": WHOLE.plan.outcomes["perforation"]}
REVIEW = replace(WHOLE, plan=WHOLE.plan.model_copy(update={"outcomes": ONE}))
UNIT = DEMO / "unit-hollowmere.yaml"
#: One perforation fewer in the file, which still holds together.
CHANGED = (
    ("events: 2\n        total: 19", "events: 1\n        total: 19"),
    ("perforation: {early: 3, late: 1, ever: 4}", "perforation: {early: 2, late: 1, ever: 3}"),
)


@pytest.fixture(autouse=True)
def quick(monkeypatch):
    """Leave disputed counts out: they say nothing of a unit, and take long."""
    monkeypatch.setattr(speaker, "disputed_pool", lambda _, base: DisputedPool(base, ()))


def outside(path: Path):
    return report_content(REVIEW, read_unit(path, WHOLE.plan), Audience.OUTSIDE)


def talk(audience: Audience, path: Path = UNIT) -> bytes:
    return slides_bytes(report_content(REVIEW, read_unit(path, WHOLE.plan), audience))


def said(made: bytes) -> str:
    slides = look.opened(made).slides
    shown = [" ".join(look.words(part) for part in s.shapes._spTree) for s in slides]
    return " ".join([*shown, *(look.notes(slide) for slide in slides)])


def test_inside_the_unit_stands_in_full_with_its_mark_on_every_slide():
    made = talk(Audience.INSIDE)
    assert look.faults(made) == []
    slides = list(look.opened(made).slides)
    for slide in slides:
        assert INSIDE_SHORT in slide.shapes[-1].text_frame.text
    titles = [look.title(slide) for slide in slides]
    place = titles.index("Perforation, all cases; ours: 3 of 41, among ordinary new units")
    assert titles[place - 1].startswith("Perforation: our counts among those")
    assert titles.index("What these studies cannot tell") > place
    printed = " ".join(audit_text(REVIEW, read_unit(UNIT, WHOLE.plan), Audience.INSIDE).split())
    (summary,) = [title for title in titles if title.startswith("Hollowmere General: ")]
    assert f"{summary.partition(': ')[2]}." in printed
    (index,) = [slide for slide in slides if look.title(slide).startswith("Backup slides")]
    assert "our counts" in [words for words, _ in look.links(index)]


def test_what_the_counts_leave_out_stands_beside_them():
    """The file: 3 early perforations, 1 late; its own series, and one that shares patients."""
    slides = list(look.opened(talk(Audience.INSIDE)).slides)
    by_title = {
        look.title(slide): " ".join(look.words(x) for x in slide.shapes._spTree) for slide in slides
    }
    alarm = "Clover-Meadowsweet 2020 (2020-clover) shares patients with the unit's own 2018-zinnia"
    (summary,) = [words for title, words in by_title.items() if title.startswith("Hollowmere")]
    assert alarm in summary
    assert alarm in by_title["How to read the unit's counts"]
    whole = by_title["Perforation, all cases; ours: 3 of 41, among ordinary new units"]
    for words in (summary, whole):
        assert "Perforation: 3 within 30 days; 1 more later." in words
        assert "Set against the studies without our own series (2018-zinnia)." in words


def test_what_to_take_home_of_a_unit_is_what_may_be_told_of_it():
    said_last = {}
    for audience in Audience:
        (last,) = [
            slide
            for slide in look.opened(talk(audience)).slides
            if look.title(slide) == "To take home"
        ]
        said_last[audience] = " ".join(look.words(part) for part in last.shapes._spTree)
    assert (
        "Hollowmere General, perforation: 3 of 41 is within the range" in said_last[Audience.INSIDE]
    )
    assert "would be noticed with a chance of" in said_last[Audience.INSIDE]
    assert "between 1 and 7 of 41" in said_last[Audience.OUTSIDE]
    assert "3 of 41" not in said_last[Audience.OUTSIDE]


def test_outside_nothing_but_what_may_be_told():
    made = talk(Audience.OUTSIDE)
    assert look.faults(made) == []
    slides = list(look.opened(made).slides)
    for slide in slides:
        assert OUTSIDE_SHORT in slide.shapes[-1].text_frame.text
    told = said(made)
    assert "Perforation, all cases: between 1 and 7 of 41" in told
    for hidden in (
        "INSIDE",
        "2022-04",
        "more later",
        "ours:",
        "our counts",
        "palliation (3 of 27)",
    ):
        assert hidden not in told
    titles = [look.title(slide) for slide in slides]
    assert "Perforation: target 6.0%, and what may be told of Hollowmere General" in titles


def test_outside_two_units_that_may_not_be_told_apart_give_the_same_bytes(tmp_path):
    """As in the attacker's test, but on whole files: a count of 3 or 2 must not show."""
    other = tmp_path / UNIT.name
    text = UNIT.read_text(encoding="utf-8")
    for old, new in CHANGED:
        assert text.count(old) == 1
        text = text.replace(old, new)
    other.write_text(text, encoding="utf-8")
    assert talk(Audience.OUTSIDE, other) == talk(Audience.OUTSIDE)
    funnels = [
        outside_funnel(content, content.unit, "perforation")
        for path in (UNIT, other)
        for content in [outside(path)]
    ]
    assert funnels[0] == funnels[1] is not None


@pytest.mark.parametrize("levels", [True, False])
def test_a_release_typed_into_the_file_lets_exact_counts_out(levels, tmp_path):
    path = tmp_path / UNIT.name
    typed = (
        "\nrelease:\n  approved_by: the board of Hollowmere General (invented)\n  on: 2026-08-01\n"
        f"  basis: a talk to colleagues\n  levels: {str(levels).lower()}\n"
    )
    path.write_text(UNIT.read_text(encoding="utf-8") + typed, encoding="utf-8")
    made = talk(Audience.OUTSIDE, path)
    assert look.faults(made) == []
    told = said(made)
    assert "3 of 41" in told
    assert ("ours: 3 of 27" in told) is levels
    assert "Exact own counts released by the board of Hollowmere General (invented)" in told
    assert "2022-04" not in told
    assert INSIDE_SHORT not in told
