"""To a workbook and back: no byte moves; what is typed moves its own value and no other."""

import shutil
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from evsyn.extraction.load import read_extracts
from evsyn.extraction.sheet.column import Kind
from evsyn.extraction.sheet.read import read_sheet
from evsyn.extraction.sheet.tabs import tabs
from evsyn.extraction.sheet.values import meant, one_line_end, shown, written
from evsyn.extraction.yaml_text import parse_bytes
from tests.extraction.builders import TinyReview
from tests.extraction.sheet.workbooks import Desk

STUDIES = Path(__file__).parent.parent.parent.parent / "studies"
REVIEWS = ("demo", "published", "published-trials")


@pytest.mark.parametrize("name", REVIEWS)
def test_a_review_comes_back_as_it_went(tmp_path, name):
    desk = Desk(STUDIES / name, tmp_path / "review.xlsx")
    found = read_sheet(desk.path, desk.folder)
    assert (found.texts, found.findings, found.absent) == ({}, (), ())
    assert not any(draft.emptied or draft.left() for draft in found.all_drafts)


@pytest.mark.parametrize("name", REVIEWS)
def test_a_review_written_anew_from_its_workbook_says_the_same(tmp_path, name):
    """Reports, overlaps, sums, answers and notes are not held by the sheets; all else is equal."""
    desk = Desk(STUDIES / name, tmp_path / "review.xlsx")
    folder = tmp_path / "new"
    folder.mkdir()
    shutil.copy(STUDIES / name / "review.yaml", folder)
    found = read_sheet(desk.path, folder)
    for file, text in found.texts.items():
        (folder / file).write_bytes(text.encode())
    beside = {"reports", "overlaps", "also_printed", "sums", "answers", "notes"}
    old, new = (
        {study.study: study.model_dump(exclude=beside) for study in read_extracts(where).studies}
        for where in (desk.folder, folder)
    )
    assert new == old


PRINTABLE = st.characters(codec="utf-8", exclude_categories=("Cc", "Cs", "Cn", "Co", "Cf"))
TYPED = {
    Kind.TEXT: st.text(PRINTABLE, min_size=1, max_size=60).filter(str.strip),
    Kind.WHOLE: st.integers(1, 3000),
    Kind.YES_NO: st.sampled_from(["yes", "no"]),
    Kind.DAY: st.dates().map(lambda day: f"20{day.year % 100:02}-{day.month:02}-01"),
    Kind.MONTH: st.integers(1950, 2020).map(str),
    Kind.CENTRES: st.lists(
        st.text("abc :#'\"-,", min_size=2).filter(str.strip), min_size=1, max_size=3
    ).map("; ".join),
}


LISTS = {"of": ["attempted", "placed", "as_printed"], "window": ["30_days", "follow_up"]}
ROW = ("2001-reed", "all", "perforation")


@cache
def columns():
    """Return each column that may hold anything of its kind, with its sheet."""
    with TemporaryDirectory() as folder:
        plan = TinyReview(Path(folder)).read().plan
    return [
        (tab, column)
        for tab in tabs(plan)
        for column in tab.columns
        if not column.names_row
        and (column.kind in TYPED or column.heading in LISTS)
        and column.heading != "part of"
    ]


@st.composite
def typed(draw):
    """Draw a few columns of the sheets, and what is typed into each."""
    chosen = draw(st.lists(st.sampled_from(columns()), min_size=1, max_size=5, unique=True))
    offered = {heading: st.sampled_from(words) for heading, words in LISTS.items()}
    return [
        (tab, column, draw(offered.get(column.heading) or TYPED[column.kind]))
        for tab, column in chosen
    ]


@settings(max_examples=8, deadline=None)
@given(typed())
def test_what_is_typed_arrives_and_nothing_else_moves(changes):
    with TemporaryDirectory() as place:
        folder = Path(place) / "tiny"
        folder.mkdir()
        TinyReview(folder)
        desk = Desk(folder, Path(place) / "tiny.xlsx")
        for tab, column, value in changes:
            cell = desk.cell(tab.name, ROW[: len(tab.names)], column.heading)
            cell.value = value
            cell.data_type = "n" if isinstance(value, int) else "s"
        before = desk.files()
        found = desk.write()
        after = desk.files()
        if found.faults:
            # A number may be one that no count or date can have; then nothing is written.
            assert after == before
            return
        old, new = (flat(parse_bytes(files["2001-reed.yaml"]).root) for files in (before, after))
        moved = {path for path in old.keys() | new.keys() if old.get(path) != new.get(path)}
        paths = {column.path for _, column, _ in changes}
        for path in moved:
            named = tuple(step for step in path if isinstance(step, str))
            assert any(named[-len(ends) :] == ends for ends in paths)
        del before["2001-reed.yaml"], after["2001-reed.yaml"]
        assert after == before
        study = read_extracts(folder).study("2001-reed")
        records = {"Studies": study, "Arms": study.arms[0]}
        records["Counts"] = study.arms[0].outcomes["perforation"]
        for tab, column, value in changes:
            arrived = shown(written(records[tab.name], column.path))
            meant_by = value if isinstance(value, int) else one_line_end(value).strip()
            assert arrived == shown(meant(column, meant_by))
        assert desk.read().texts == {}


def flat(node, path=()):
    """Return every value of a file by its path."""
    if isinstance(node, dict):
        parts = node.items()
    elif isinstance(node, list):
        parts = enumerate(node)
    else:
        return {path: getattr(node, "written", node)}
    return {key: one for step, part in parts for key, one in flat(part, (*path, step)).items()}
