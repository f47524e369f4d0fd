"""A change in place changes what it names, and every other letter stays."""

import re
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from evsyn.extraction.writing.edit import Change, EditError, edited, same
from evsyn.extraction.yaml_text import Block, Items, parse_bytes

STUDIES = sorted(Path(__file__).parents[3].glob("studies/*/*.yaml"))
TEXT = """\
# kept: the head
study: rowan   # kept: behind a value
citation: {year: 2019, note: "as 'read'"}
arms:
  - arm: stent
    patients: 12

    # kept: above the counts
    outcomes:
      perforation:
        events: 1   # kept: behind a count
        total: 12
      migration: {events: 2, total: 12}
# kept: between
characteristics:
notes: >-
  folded
  text

# kept: the end"""


def test_values_change_in_place():
    after = edited(
        TEXT,
        [
            Change(("study",), "rowan-2"),
            Change(("citation", "note"), 'said "so"'),
            Change(("citation", "doi"), "10.1/x"),
            Change(("arms", 0, "outcomes", "perforation", "events"), 3),
            Change(("arms", 0, "outcomes", "perforation", "at"), "Table 2, p. 5"),
            Change(("arms", 0, "outcomes", "migration", "of"), "placed"),
            Change(("arms", 0, "outcomes", "stoma", "events"), 4),
            Change(("arms", 1), {"arm": "surgery", "patients": 9}),
            Change(("characteristics", "operator"), "surgeon"),
            Change(("notes",), "plain"),
            Change(("design",), "cohort"),
        ],
    )
    assert (
        after
        == """\
# kept: the head
study: rowan-2   # kept: behind a value
citation: {year: 2019, note: "said \\"so\\"", doi: 10.1/x}
arms:
  - arm: stent
    patients: 12

    # kept: above the counts
    outcomes:
      perforation:
        events: 3   # kept: behind a count
        total: 12
        at: "Table 2, p. 5"
      migration: {events: 2, total: 12, of: placed}
      stoma:
        events: 4
  - arm: surgery
    patients: 9
# kept: between
characteristics:
  operator: surgeon
notes: plain
design: cohort

# kept: the end"""
    )


@pytest.mark.parametrize("line_end", ["\n", "\r\n"])
def test_line_ends_stay(line_end):
    text = TEXT.replace("\n", line_end)
    after = edited(text, [Change(("arms", 0, "outcomes", "stoma"), {"events": 1, "total": 12})])
    assert after.count("\n") == text.count("\n") + 3
    assert after.count("\r\n") == (after.count("\n") if line_end == "\r\n" else 0)


@pytest.mark.parametrize(
    ("path", "value"),
    [
        (("study",), "rowan"),
        (("citation",), {"year": 2019}),
        (("arms", 0, "outcomes", "migration"), {"events": 2, "total": 12, "note": None}),
        (("notes",), "folded text"),
    ],
)
def test_what_stands_already_changes_nothing(path, value):
    assert edited(TEXT, [Change(path, value)]) == TEXT


@pytest.mark.parametrize(
    ("path", "message"),
    [
        (("study", "name"), "cannot stand here"),
        (("arms", 3), "at the end of its list"),
        (("arms", "first"), "cannot stand here"),
    ],
)
def test_a_change_that_has_no_place(path, message):
    with pytest.raises(EditError, match=message):
        edited(TEXT, [Change(path, "x")])


def test_a_text_that_cannot_be_read():
    with pytest.raises(EditError, match="line 2: "):
        edited("a: 1\na: 2\n", [Change(("b",), 1)])


def leaves(node, path=()):
    """Yield the path of every value that is no group."""
    if isinstance(node, (Block, Items)) and node:
        pairs = node.items() if isinstance(node, Block) else enumerate(node)
        for step, below in pairs:
            yield from leaves(below, (*path, step))
    else:
        yield path


def blocks(node, path=()):
    """Yield the path of every group of keys."""
    if isinstance(node, Block):
        yield path
    pairs = node.items() if isinstance(node, Block) else enumerate(node)
    for step, below in pairs:
        if isinstance(below, (Block, Items)):
            yield from blocks(below, (*path, step))


def without(root, path):
    """Return all other values by their paths."""
    found = {}
    for one in leaves(root):
        if one[: len(path)] != path:
            node = root
            for step in one:
                node = node[step]
            found[one] = node
    return found


NEW = st.one_of(
    st.integers(0, 999),
    st.text(st.characters(min_codepoint=32, max_codepoint=126), min_size=1, max_size=130),
    st.fixed_dictionaries({"events": st.integers(0, 9), "at": st.just("p. 5, # 2: a")}),
    st.lists(st.integers(0, 9), min_size=1, max_size=4),
    st.lists(st.sampled_from(["one", "a: b", "- c"]), min_size=1, max_size=3),
)
REMARK = re.compile(r"#.*")


@given(st.sampled_from(STUDIES), st.randoms(use_true_random=False), NEW, st.booleans())
def test_any_change_to_a_real_file_keeps_all_else(path, chance, value, add):
    text = path.read_bytes().decode()
    root = parse_bytes(text.encode()).root
    if add:
        where = (*chance.choice(sorted(blocks(root), key=str)), "new_key")
    else:
        where = chance.choice(sorted(leaves(root), key=str))
    after = edited(text, [Change(where, value)])
    read = parse_bytes(after.encode()).root
    node = read
    for step in where:
        node = node[step]
    assert same(node, value)
    assert without(read, where) == without(root, where)
    kept = [line for line in text.splitlines() if line.lstrip().startswith("#")]
    assert [line for line in after.splitlines() if line.lstrip().startswith("#")][
        : len(kept)
    ] == kept
    assert edited(after, [Change(where, value)]) == after


@given(st.sampled_from(STUDIES))
def test_setting_every_value_to_itself_changes_no_letter(path):
    text = path.read_bytes().decode()
    root = parse_bytes(text.encode()).root
    assert edited(text, [Change((key,), value) for key, value in root.items()]) == text
