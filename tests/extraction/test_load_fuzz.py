"""Whatever is done to a file, reading ends in a review or in findings, and the file stays."""

import random
from pathlib import Path
from tempfile import TemporaryDirectory

from hypothesis import given, settings
from hypothesis import strategies as st

from evsyn.extraction.load import UnreadableError, read_review, read_unit
from evsyn.terms import Finding
from tests.extraction.builders import (
    PLAN,
    PLAN_FILE,
    REED,
    REED_FILE,
    SEDGE,
    SEDGE_FILE,
    UNIT,
    UNIT_FILE,
    TinyReview,
)

VALID = {PLAN_FILE: PLAN, REED_FILE: REED, SEDGE_FILE: SEDGE, UNIT_FILE: UNIT}
PIECES = ["-", ":", "{", "}", "[", "]", "#", "'", '"', "|", ">", "&", "*", "!", "%", "@", "\t",
          "\n", "  ", "0", "-1", "1e9", "999999999999999", "null", "true", "no", "\x00", "\ufeff",
          "é", "part_of: all\n", "---\n", "stands: twice\n", "~", ",", "\r", "?",
          "1.5", "''"]  # fmt: skip


def check_reading(files):
    """Read a folder with these files; what is wrong may only come as findings."""
    with TemporaryDirectory() as name:
        folder = Path(name)
        tiny = TinyReview(folder)
        for file, raw in files.items():
            tiny.write(file, raw)
        before = {path.name: path.read_bytes() for path in folder.iterdir()}
        try:
            review = read_review(folder)
            findings = list(review.findings)
            findings += read_unit(folder / UNIT_FILE, review.plan).findings
        except UnreadableError as error:
            findings = list(error.findings)
            assert findings
        assert {path.name: path.read_bytes() for path in folder.iterdir()} == before
    for finding in findings:
        assert isinstance(finding, Finding)
        assert finding.message
        assert finding.cure
        content = before.get(finding.source.file, b"")
        lines = content.count(b"\n") + content.count(b"\r") + content.count(b"\xc2\x85") + 1
        assert 1 <= finding.source.line <= lines


@given(st.sampled_from(sorted(VALID)), st.binary(max_size=400))
@settings(max_examples=60, deadline=None)
def test_random_bytes(file, raw):
    check_reading({file: raw})


@given(st.sampled_from(sorted(VALID)), st.integers(0, 2**32), st.integers(1, 4))
@settings(max_examples=300, deadline=None)
def test_random_changes_of_lines(file, seed, changes):
    source = random.Random(seed)
    lines = VALID[file].splitlines(keepends=True)
    for _ in range(changes):
        at, other = source.randrange(len(lines)), source.randrange(len(lines))
        match source.choice(["delete", "double", "swap", "indent", "dedent"]):
            case "delete" if len(lines) > 1:
                del lines[at]
            case "double":
                lines.insert(other, lines[at])
            case "swap":
                lines[at], lines[other] = lines[other], lines[at]
            case "indent":
                lines[at] = "  " + lines[at]
            case _:
                lines[at] = lines[at].removeprefix("  ")
    check_reading({file: "".join(lines).encode()})


@given(
    st.sampled_from(sorted(VALID)),
    st.lists(st.tuples(st.integers(0, 2000), st.sampled_from(PIECES), st.booleans()), max_size=4),
)
@settings(max_examples=300, deadline=None)
def test_random_characters(file, edits):
    text = VALID[file]
    for place, piece, instead in edits:
        at = place % (len(text) + 1)
        text = text[:at] + piece + text[at + instead * len(piece) :]
    check_reading({file: text.encode("utf-8")})


@given(st.sampled_from(sorted(VALID)), st.integers(0, 2000), st.binary(min_size=1, max_size=8))
@settings(max_examples=150, deadline=None)
def test_random_bytes_within(file, at, raw):
    content = VALID[file].encode()
    at = at % len(content)
    check_reading({file: content[:at] + raw + content[at + len(raw) :]})
