"""A whole new file reads back as what was meant, and looks like the files of the house."""

import yaml
from hypothesis import given
from hypothesis import strategies as st

from evsyn.extraction.writing.edit import same
from evsyn.extraction.writing.scalar import scalar
from evsyn.extraction.writing.text import flow, yaml_text
from evsyn.extraction.yaml_text import parse_bytes

KEYS = st.from_regex(r"[a-z][a-z_]{0,8}", fullmatch=True)
LETTERS = st.characters(min_codepoint=32, max_codepoint=0x1F6FF, exclude_categories=["Cs", "Cc"])
TEXTS = st.one_of(
    st.text(LETTERS, min_size=1, max_size=60),
    st.lists(st.sampled_from(["stent", "#", "no", "-", "1:30", '"', "'", "\\", "a: b", "\u2028"]),
             min_size=1, max_size=40).map(" ".join),
    st.sampled_from(["no", "null", "~", "true", "7.70", "012", "2026-03-02", "2008-12", "0%", "",
                     "- a", "? x", "[a", "{", "a #b", "a: b", " a", "a ", "=1+1", "\n", "a\nb"]),
)  # fmt: skip
SCALARS = st.one_of(TEXTS, st.integers(0, 10**9), st.booleans())
VALUES = st.recursive(
    SCALARS,
    lambda inner: st.one_of(st.lists(inner, max_size=3), st.dictionaries(KEYS, inner, max_size=3)),
    max_leaves=8,
)


def readable(text):
    return parse_bytes(text.encode()).root


@given(st.dictionaries(KEYS, VALUES, min_size=1, max_size=4))
def test_what_is_written_is_read_back(record):
    parsed = parse_bytes(yaml_text(record).encode())
    if parsed.root is None:
        assert all("hidden character" in trouble.message for trouble in parsed.troubles)
    else:
        assert same(parsed.root, record)


@given(TEXTS)
def test_the_general_reader_reads_the_same_text(text):
    """PyYAML, by the rules of version 1.1, agrees on every text (but for dates and the like)."""
    written = scalar(text)
    if written.startswith('"') and text.isprintable():
        assert yaml.safe_load(f"k: {written}\n") == {"k": text}


def test_the_style_of_a_new_file():
    record = {
        "format": 1,
        "study": "2031-rowan",
        "invented": True,
        "citation": {"title": "Stents: a " + "long title " * 9, "year": 2031, "doi": None},
        "recruited": {"from": "2020-01"},
        "arms": [{"arm": "stent", "patients": 12}],
        "sums": [{"what": "causes", "parts": [1, 2], "total": 3}],
        "printed": "7.70",
        "notes": ["one", "two"],
    }
    comments = {
        (): "An invented extract.",
        ("arms",): "Groups.",
        ("arms", 0, "patients"): "How many.",
    }
    assert (
        yaml_text(record, comments)
        == """\
# An invented extract.
format: 1
study: 2031-rowan
invented: true
citation:
  title: "Stents: a long title long title long title long title long title long title long title
    long title long title "
  year: 2031
recruited:
  from: 2020-01
# Groups.
arms:
  - arm: stent
    # How many.
    patients: 12
sums:
  - what: causes
    parts: [1, 2]
    total: 3
printed: "7.70"
notes:
  - one
  - two
"""
    )


def test_a_group_on_one_line():
    value = {"events": 4, "of": "placed", "note": None, "parts": ["a b", "1"]}
    assert flow(value) == '{events: 4, of: placed, parts: [a b, "1"]}'
    assert same(readable(f"k: {flow(value)}\n"), {"k": value})
