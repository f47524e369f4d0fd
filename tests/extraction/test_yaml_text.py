"""YAML's old traps do not bite: YAML 1.2.2, chapter 10.3.2, core schema, is the outside measure."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from evsyn.extraction.yaml_text import MAX_DEPTH, Block, Items, parse_bytes


def value_of(written):
    parsed = parse_bytes(f"key: {written}\n".encode())
    assert parsed.troubles == (), parsed.troubles
    return parsed.root["key"]


def troubles_of(raw):
    parsed = parse_bytes(raw if isinstance(raw, bytes) else raw.encode("utf-8"))
    assert parsed.root is None
    assert parsed.troubles
    for trouble in parsed.troubles:
        assert trouble.line >= 1
        assert trouble.message
        assert trouble.cure.endswith((".", ")."))
    return parsed.troubles


# Each of these changes its meaning under the rules of YAML 1.1, and none under 1.2.2, 10.3.2.
@pytest.mark.parametrize(
    "written",
    ["no", "NO", "No", "yes", "Yes", "on", "off", "y", "n", "1:30", "190:20:30", "2008-01-02",
     "2008-01-02 10:00:00", "1_000", "0b101", "+0x1f", "<<", "=", "1.2.3", "1e", "e3", "0o8"],
)  # fmt: skip
def test_text_stays_text(written):
    assert value_of(written) == written
    assert type(value_of(written)) is str


# YAML 1.2.2, 10.3.2: the regular expressions of the core schema.
@pytest.mark.parametrize(
    ("written", "number"),
    [("012", 12), ("0", 0), ("-0", 0), ("+12", 12), ("-19", -19), ("0o14", 12), ("0x1F", 31),
     ("08", 8), ("000000000000000000000007", 7)],
)  # fmt: skip
def test_whole_numbers(written, number):
    value = value_of(written)
    assert value == number
    assert isinstance(value, int)
    assert value.written == written


@pytest.mark.parametrize(
    ("written", "number"),
    [("1e-3", 0.001), ("1e3", 1000.0), ("-.5", -0.5), ("5.", 5.0), ("+12e03", 12000.0),
     ("7.70", 7.7), ("-2E+05", -200000.0), ("0.", 0.0)],
)  # fmt: skip
def test_decimals(written, number):
    value = value_of(written)
    assert value == pytest.approx(number, rel=1e-15)
    assert isinstance(value, float)
    assert value.written == written


@pytest.mark.parametrize("written", ["true", "True", "TRUE"])
def test_true(written):
    assert value_of(written) is True


@pytest.mark.parametrize("written", ["false", "False", "FALSE"])
def test_false(written):
    assert value_of(written) is False


@pytest.mark.parametrize("written", ["", "~", "null", "Null", "NULL"])
def test_empty(written):
    assert value_of(written) is None


@pytest.mark.parametrize("word", ["12", "7.70", "true", "null", "~", "012", "no", "1e-3"])
@pytest.mark.parametrize("mark", ["'", '"'])
def test_quotation_marks_make_text(word, mark):
    assert value_of(f"{mark}{word}{mark}") == word


@pytest.mark.parametrize("written", [".inf", "-.inf", ".nan", ".NaN"])
def test_no_endless_numbers(written):
    assert value_of(written) == written


@pytest.mark.parametrize("written", ["9" * 16, "-" + "9" * 400, "1e400", "0x" + "f" * 40])
def test_huge_numbers_are_refused(written):
    (trouble,) = troubles_of(f"a: 1\nkey: {written}\n")
    assert (trouble.line, trouble.message) == (2, "the number is too large")


def test_thousands_of_leading_zeros_are_no_trouble():
    assert value_of("0" * 10_000 + "1") == 1


def test_each_repeated_key_is_told_at_once():
    text = "a: 1\nb:\n  c: 1\n  c: 2\na: 2\nd: {e: 1, e: 2}\na: 3\n"
    assert [(one.line, one.message) for one in troubles_of(text)] == [
        (4, "'c' stands twice, on lines 3 and 4"),
        (5, "'a' stands twice, on lines 1 and 5"),
        (6, "'e' stands twice, on line 6"),
        (7, "'a' stands twice, on lines 1 and 7"),
    ]


def test_equal_keys_that_differ_in_quotes_are_repeated_keys():
    assert "stands twice" in troubles_of("total: 3\n'total': 4\n")[0].message


def test_equal_keys_in_two_blocks_are_none():
    assert parse_bytes(b"a: {c: 1}\nb: {c: 2}\n").root == {"a": {"c": 1}, "b": {"c": 2}}


def test_repeated_keys_are_told_beside_a_later_error():
    told = [one.message for one in troubles_of('a: 1\na: 2\nb: "open\n')]
    assert told[0] == "'a' stands twice, on lines 1 and 2"
    assert len(told) == 2


@pytest.mark.parametrize("text", ["a: &x 1\n", "a: *x\n", "a: &x {b: 1}\n", "a: [&x 1, *x]\n"])
def test_anchors_and_aliases_are_refused(text):
    assert "anchor or alias" in troubles_of(text)[0].message


def test_an_alias_bomb_is_refused_at_once():
    bomb = "a: &a [x, x]\n" + "".join(
        f"{chr(98 + i)}: &{chr(98 + i)} [*{chr(97 + i)}, *{chr(97 + i)}]\n" for i in range(24)
    )
    assert troubles_of(bomb)[0].line == 1


@pytest.mark.parametrize("text", ["a: !important\n", "a: !!int 3\n", "a: !x {b: 1}\n"])
def test_tags_are_refused(text):
    assert "tag" in troubles_of(text)[0].message


@pytest.mark.parametrize(
    "text", ["a: 1\n---\nb: 2\n", "---\na: 1\n---\n", "a: 1\n...\n---\nb: 1\n"]
)
def test_two_documents_are_refused(text):
    assert troubles_of(text)[0].message == "the file holds two documents"


@pytest.mark.parametrize("text", ["---\na: 1\n", "a: 1\n...\n", "%YAML 1.2\n---\na: 1\n"])
def test_one_marked_document_is_read(text):
    assert parse_bytes(text.encode()).root == {"a": 1}


@pytest.mark.parametrize("text", ["a:\n\tb: 1\n", "a:\n  - b\n\t- c\n"])
def test_a_tab_before_a_line_is_told(text):
    trouble = troubles_of(text)[0]
    assert trouble.message == "the line is indented with a tab"
    assert text.splitlines()[trouble.line - 1].startswith("\t")


def test_a_tab_after_a_colon_is_no_trouble():
    assert parse_bytes(b"a:\t1\n").root == {"a": 1}


@pytest.mark.parametrize("raw", [b"", b"\n\n", b"   ", b"\xef\xbb\xbf", b"\xef\xbb\xbf\r\n"])
def test_an_empty_file(raw):
    assert troubles_of(raw)[0].message == "the file is empty"


@pytest.mark.parametrize(
    "text", ["# only a remark\n", "- a\n- b\n", "word\n", "3\n", "[]\n", "---\n"]
)
def test_a_file_without_fields(text):
    assert troubles_of(text)[0].message == "the file holds no 'key: value' lines"


def test_latin_1_is_told_with_its_line():
    (trouble,) = troubles_of("a: 1\r\nb: Köln\r\n".encode("latin-1"))
    assert (trouble.line, trouble.message) == (2, "the file is not written in UTF-8")


@pytest.mark.parametrize("encoding", ["utf-16", "utf-16-le", "utf-16-be", "utf-32"])
def test_wide_encodings_are_told(encoding):
    assert troubles_of("a: 1\nb: 2\n".encode(encoding))


def test_a_byte_order_mark_and_windows_line_ends_are_read():
    parsed = parse_bytes("\ufeffa: 1\r\nb:\r\n  c: Zürich\r\n".encode())
    assert parsed.root == {"a": 1, "b": {"c": "Zürich"}}
    assert parsed.root.key_lines == {"a": 1, "b": 2}
    assert parsed.root["b"].key_lines == {"c": 3}


@pytest.mark.parametrize("character", ["\x00", "\x01", "\x07", "\x0b", "\x1b", "\x7f", "\ufeff"])
def test_hidden_characters_are_told_with_their_line(character):
    (trouble,) = troubles_of(f"a: é\nb: é\nc: x{character}y\n")
    assert trouble.line == 3
    assert f"U+{ord(character):04X}" in trouble.message


@pytest.mark.parametrize("escape", ["\\0", "\\e", "\\x07", "\\uFEFF"])
def test_hidden_characters_written_as_escapes_are_told(escape):
    (trouble,) = troubles_of(f'a: 1\nb: "x{escape}y"\n')
    assert trouble.line == 2
    assert "hidden character" in trouble.message


@pytest.mark.parametrize(
    "text",
    ["[" * 100_000, "a: " + "[" * 100_000, "{a: " * 100_000, "- " * 100_000, "? " * 100_000,
     "".join(" " * depth + "a:\n" for depth in range(2000))],
)  # fmt: skip
def test_deep_nesting_is_told(text):
    (trouble,) = troubles_of(text)
    assert trouble.line >= 1


def test_a_hundred_thousand_brackets_are_called_nested():
    assert troubles_of("[" * 100_000)[0].message == "the file is nested too deeply"


def test_nesting_up_to_the_limit_is_read():
    depth = MAX_DEPTH - 1
    assert parse_bytes(f"a: {'[' * depth}1{']' * depth}\n".encode()).root is not None
    troubles_of(f"a: {'[' * MAX_DEPTH}1{']' * MAX_DEPTH}\n")


@pytest.mark.parametrize("text", ["[a, b]: 1\n", "{a: 1}: 2\n", "? - a\n: 1\n"])
def test_a_key_must_be_a_word(text):
    assert troubles_of(text)[0].message == "a key must be a plain word"


def test_keys_that_look_like_numbers_stay_words():
    assert list(parse_bytes(b"1: a\n012: b\nnull: c\nno: d\ntrue: e\n").root) == [
        "1", "012", "null", "no", "true",
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("text", "line", "words"),
    [
        ("a: 1\nnote: stent: placed\n", 2, "second colon"),
        ('a: "open\nb: 1\n', 2, "does not fit YAML"),
        ("a: [1, 2\n", 1, "does not fit YAML"),
        ("a:\n  b: 1\n c: 2\n", 3, "does not fit YAML"),
        ("a: @x\n", 1, "does not fit YAML"),
    ],
)
def test_slips_of_the_key_are_told_with_their_line(text, line, words):
    trouble = troubles_of(text)[0]
    assert trouble.line == line
    assert words in trouble.message


def test_every_value_knows_its_line_in_block_style():
    root = parse_bytes(b"a: 1\n\nb:\n  - c: 1\n    d: 2\n  - 5\n").root
    assert isinstance(root["b"], Items)
    assert (root["b"].line, root["b"].path, root["b"].item_lines) == (3, "b", [4, 6])
    inner = root["b"][0]
    assert isinstance(inner, Block)
    assert (inner.path, inner.key_lines) == ("b.0", {"c": 4, "d": 5})


def test_every_value_knows_its_line_in_flow_style():
    root = parse_bytes(b"a: {b: 1,\n  c: [1,\n  2]}\n").root
    assert root["a"].key_lines == {"b": 1, "c": 2}
    assert root["a"]["c"].item_lines == [2, 3]
    assert root["a"]["c"].path == "a.c"


def test_long_texts_are_folded_and_keep_their_paragraphs():
    assert parse_bytes(b"a: >-\n  one\n  two\nb: |\n  x\n  y\n").root == {
        "a": "one two",
        "b": "x\ny\n",
    }


@given(st.binary(max_size=300))
def test_any_bytes_give_a_block_or_troubles(raw):
    parsed = parse_bytes(raw)
    assert (parsed.root is None) == bool(parsed.troubles)
    last = raw.decode("latin-1").count("\n") + raw.decode("latin-1").count("\r") + 1
    assert all(1 <= trouble.line <= last for trouble in parsed.troubles)


@given(st.text(alphabet="ab1:-#[]{},&*!|>'\"%@`~? \n\t\r\\.", max_size=120))
def test_any_marks_of_the_language_give_a_block_or_troubles(text):
    parsed = parse_bytes(text.encode("utf-8"))
    assert (parsed.root is None) == bool(parsed.troubles)


@given(st.integers(0, 10**15 - 1))
def test_every_count_comes_back_as_written(number):
    assert value_of(str(number)) == number
