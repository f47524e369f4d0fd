"""However a spreadsheet saved it, the same table is read."""

import pytest

from evsyn.extraction.case_log.csv_table import MOST_ROWS, csv_file
from evsyn.extraction.case_log.refused import RefusedError

TEXT = '# invented data\nmonth,Größe,note\n2024-03,3,"a, b"\n\n2024-04,5,\n'
ROWS = (("2024-03", "3", "a, b"), ("2024-04", "5", ""))


def cells(raw):
    return tuple(row.cells for row in csv_file("log.csv", raw).table.rows)


def saved(separator=",", end="\n", encoding="utf-8", before=b""):
    """Return the file as another program would save it; a lone text gets empty cells after it."""
    text = TEXT.replace(",", separator).replace(f"a{separator} b", "a, b")
    text = text.replace("data\n", f"data{separator * 2}\n").replace("\n", end)
    return before + text.encode(encoding)


@pytest.mark.parametrize("separator", [",", ";", "\t"])
@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
@pytest.mark.parametrize(
    ("encoding", "before"),
    [
        ("utf-8", b""),
        ("utf-8-sig", b""),
        ("utf-16", b""),
        ("utf-16-le", b""),
        ("utf-16-be", b"\xfe\xff"),
        ("cp1252", b""),
    ],
)
def test_every_way_of_saving_gives_the_same_table(separator, end, encoding, before):
    raw = saved(separator, end, encoding, before)
    read = csv_file("log.csv", raw)
    assert cells(raw) == ROWS
    assert read.table.headings == ("month", "Größe", "note")
    assert [one.text for one in read.remarks] == ["# invented data"]
    assert [row.number for row in read.table.rows] == [3, 5]


def test_a_first_line_may_say_how_columns_are_separated():
    assert cells(b"sep=;\r\na;b,c\r\n1;2\r\n") == (("1", "2"),)


def test_a_quoted_line_end_keeps_the_rows_apart():
    read = csv_file("log.csv", b'a,b\n1,"two\nlines"\n3,4\n')
    assert [(row.number, row.cells) for row in read.table.rows] == [
        (2, ("1", "two\nlines")),
        (4, ("3", "4")),
    ]


def test_cells_beyond_the_headings_are_kept_to_be_screened_and_then_refused():
    read = csv_file("log.csv", b"a,b\n1,2\n1,2,3\n1,2,,4\n1,2,,,\n")
    assert read.table.headings == ("a", "b", "", "")
    assert read.table.rows[2].cells == ("1", "2", "", "4")
    (refusal,) = read.refusals
    assert (refusal.message, refusal.line) == ("rows 3 and 4: more cells than the 2 headings", 3)


def test_short_rows_are_filled_up():
    assert cells(b"a,b,c\n1\n1,2,3,,\n") == (("1", "", ""), ("1", "2", "3"))


@pytest.mark.parametrize(
    ("raw", "line", "message"),
    [
        (b"", 1, "the file holds no headings"),
        (b"# invented data\n\n", 1, "the file holds no headings"),
        (",,\u2028,,\u2028\n".encode(), 1, "the file holds no headings"),
        (b"sep=|\n| | |\n", 1, "the file holds no headings"),
        (b'a,b\n1,2\n"3,4\n', 3, "the quotation marks of this row do not match"),
        (b"a,b\n\x81\n", 1, "the file is not text that can be read"),
        (b"a\x00b\n\n", 1, "the file is not text that can be read"),
        (b"a\n" + b"1\n" * (MOST_ROWS + 1), MOST_ROWS + 2, "the file holds more than 20,000 rows"),
    ],
)
def test_what_is_refused(raw, line, message):
    with pytest.raises(RefusedError, match=message) as caught:
        csv_file("log.csv", raw)
    assert caught.value.line == line
    assert caught.value.cure
