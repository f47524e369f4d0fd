"""The fields of records: text as written, names, dates, and the place of each value."""

import pytest
from pydantic import TypeAdapter, ValidationError

from evsyn.extraction.record import Day, Month, Name, Record, Text
from evsyn.extraction.yaml_text import parse_bytes


def read_as(kind, written):
    return TypeAdapter(kind).validate_python(parse_bytes(f"key: {written}\n".encode()).root["key"])


# YAML 1.1 reads the first five as numbers, dates or booleans.
@pytest.mark.parametrize(
    "written", ["7.70", "012", "1e-3", "2008-01-02", "NO", "no", "1:30", "0x1F", "62.50", "on"]
)
def test_text_is_kept_as_written(written):
    assert read_as(Text, written) == written


def test_text_is_trimmed_and_never_empty():
    assert read_as(Text, '"  Table 2 "') == "Table 2"
    for empty in ('""', '"   "', '"\\n"'):
        with pytest.raises(ValidationError):
            read_as(Text, empty)


@pytest.mark.parametrize("written", ["true", "[a]", "{a: b}", "null", f"'{'x' * 4001}'"])
def test_what_is_no_text(written):
    with pytest.raises(ValidationError):
        read_as(Text, written)


@pytest.mark.parametrize("written", ["palliation", "30_days", "2001-reed", "12", "007", "A", "TTS"])
def test_names(written):
    assert read_as(Name, written) == written


@pytest.mark.parametrize(
    "written", ["'two words'", "a.b", "a/b", "-a", "_a", "é", "''", "'a\n\n'", "../x", "x" * 81]
)
def test_what_is_no_name(written):
    with pytest.raises(ValidationError):
        read_as(Name, written)


@pytest.mark.parametrize(
    "written", ["1996", "2008-12", "2008-12-31", "2008-02-29", "1999-01", "'2004'"]
)
def test_months(written):
    assert read_as(Month, written) == written.strip("'")


@pytest.mark.parametrize(
    "written",
    ["2008-13", "2008-31", "2008-00", "2008-1", "2009-02-29", "2008-12-32", "208", "20081", "1700",
     "12/2008", "2008.5", "spring 2008", "２００８", "2008-12-31T00", "true", "[2008]"],
)  # fmt: skip
def test_what_is_no_month(written):
    with pytest.raises(ValidationError):
        read_as(Month, written)


@pytest.mark.parametrize("written", ["2026-03-02", "2024-02-29"])
def test_days(written):
    assert read_as(Day, written) == written


@pytest.mark.parametrize(
    "written", ["2026", "2026-03", "2026-02-29", "2026-3-2", "1999-03-02", "2.3.2026", "20260302"]
)
def test_what_is_no_day(written):
    with pytest.raises(ValidationError):
        read_as(Day, written)


class Inner(Record):
    size: int


class Outer(Record):
    inner: Inner
    labels: dict[str, str]


def outer():
    root = parse_bytes(b"inner:\n  size: 3\nlabels:\n  a: b\n  c: d\n").root
    return Outer.model_validate(root, context={"file": "x.yaml"})


def test_a_record_knows_its_place():
    read = outer()
    assert str(read.inner.source("size")) == "x.yaml, line 2"
    assert read.inner.source("size").key_path == "inner.size"
    assert read.inner.source().line == 1
    assert read.source("labels").line == 3
    assert read.source("labels", "p. 5").place == "p. 5"


def test_a_record_knows_the_place_of_what_lies_deeper():
    assert (outer().source("labels.c").line, outer().source("labels.c").key_path) == (5, "labels.c")
    assert outer().source("inner.size").line == 2


def test_a_field_that_was_not_written_is_placed_at_its_group():
    assert outer().inner.source("colour").line == 1


def test_a_record_is_frozen_and_takes_no_other_field():
    with pytest.raises(ValidationError):
        outer().inner.size = 4
    with pytest.raises(ValidationError):
        Inner.model_validate({"size": 3, "colour": "red"})
