"""Whatever a log holds, reading it ends in counts or in findings that say where."""

import random
from io import BytesIO
from pathlib import Path
from tempfile import TemporaryDirectory
from zipfile import BadZipFile, ZipFile

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from evsyn.terms import Finding
from tests.extraction.case_log.made_up import HEADINGS, LogFolder, table, workbook_of

PIECES = [",", ";", "\t", '"', "'", "\n", "\r", "\r\n", "#", "=1+1", "\x00", "\ufeff", "é", "ß",
          "yes", "no", "late", "early", "unknown", "-1", "1e9", "9" * 20, "nan", "inf",
          "2024-03-17", "٣", "\u2028", "\x1f", " ", "intent", "month", "", "?"]  # fmt: skip


def check(content, name="log.csv"):
    with TemporaryDirectory() as folder:
        found = LogFolder(Path(folder)).write(content, name).found()
        lines = max((Path(folder) / name).read_bytes().count(b"\n") + 1, 30_000)
    for finding in found:
        assert isinstance(finding, Finding)
        assert finding.message
        assert finding.cure
        assert finding.source.file in (name, "unit.yaml")
        assert 0 <= finding.source.line <= lines


@settings(max_examples=80, deadline=None)
@given(st.binary(max_size=300))
def test_random_bytes(raw):
    check(raw)


@settings(max_examples=80, deadline=None)
@given(st.lists(st.lists(st.sampled_from(PIECES), max_size=20), max_size=8))
def test_random_tables(rows):
    check("\n".join(",".join(row) for row in rows))


@settings(max_examples=80, deadline=None)
@given(
    st.lists(st.tuples(st.integers(0, 600), st.sampled_from(PIECES), st.booleans()), max_size=4),
    st.sampled_from(["utf-8", "utf-16", "utf-8-sig"]),
)
def test_random_characters(edits, encoding):
    text = table()
    for place, piece, instead in edits:
        at = place % (len(text) + 1)
        text = text[:at] + piece + text[at + instead * len(piece) :]
    check(text.encode(encoding))


@settings(max_examples=50, deadline=None)
@given(st.integers(3, 5), st.integers(0, 14), st.text(max_size=12))
def test_random_cells(row, place, value):
    with TemporaryDirectory() as folder:
        made = LogFolder(Path(folder))
        quoted = '"' + value.replace('"', '""').replace("\r", "").replace("\n", "") + '"'
        heading = HEADINGS.split(",")[place]
        made.with_cell(row, heading, quoted)
        for fault in made.faults():
            assert fault[0].startswith("log.csv")


@pytest.fixture(scope="module")
def workbook(tmp_path_factory):
    path = tmp_path_factory.mktemp("book") / "log.xlsx"
    workbook_of(table(), path)
    return path.read_bytes()


@pytest.mark.parametrize("seed", range(25))
def test_damaged_workbooks(workbook, seed):
    source = random.Random(seed)
    raw = bytearray(workbook)
    for _ in range(source.randint(1, 6)):
        raw[source.randrange(len(raw))] = source.randrange(256)
    check(bytes(raw), "log.xlsx")


@pytest.mark.parametrize("seed", range(25))
def test_workbooks_with_damaged_parts(workbook, seed):
    source = random.Random(seed)
    kept = BytesIO()
    try:
        with ZipFile(BytesIO(workbook)) as old, ZipFile(kept, "w") as new:
            parts = old.infolist()
            hit = source.choice(parts).filename
            for part in parts:
                content = bytearray(old.read(part))
                if part.filename == hit:
                    for _ in range(source.randint(1, 20)):
                        content[source.randrange(len(content))] = source.choice(b'<>"/&0aZ ')
                new.writestr(part.filename, bytes(content))
    except BadZipFile:
        pytest.fail("the sound workbook could not be opened")
    check(kept.getvalue(), "log.xlsx")
