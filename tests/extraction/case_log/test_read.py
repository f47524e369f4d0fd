"""Which files are opened at all."""

import pytest

from evsyn.extraction.case_log.packing import MOST_BYTES
from evsyn.extraction.case_log.read import read_log
from evsyn.extraction.case_log.refused import RefusedError


@pytest.mark.parametrize(
    ("name", "message"),
    [
        ("log.xls", "an old workbook"),
        ("log.xlsm", "a workbook with macros"),
        ("log.ods", "an OpenDocument sheet"),
        ("log.txt", "neither .csv nor .xlsx"),
        ("log.csv", "the log is missing"),
        ("../log.csv", "must lie beside the unit file"),
        ("folder.csv", "cannot be opened"),
        ("a\x00.csv", "cannot be opened"),
    ],
)
def test_what_is_refused_by_its_name(tmp_path, name, message):
    (tmp_path / "folder.csv").mkdir()
    with pytest.raises(RefusedError, match=message) as caught:
        read_log(tmp_path, name)
    assert caught.value.cure


def test_a_workbook_named_csv_is_told(tmp_path):
    (tmp_path / "log.csv").write_bytes(b"PK\x03\x04")
    with pytest.raises(RefusedError, match=r"a workbook, named .csv"):
        read_log(tmp_path, "log.csv")


def test_a_csv_has_no_sheets(tmp_path):
    (tmp_path / "log.csv").write_bytes(b"a\n1\n")
    assert read_log(tmp_path, "log.csv").table.headings == ("a",)
    with pytest.raises(RefusedError, match="no sheets"):
        read_log(tmp_path, "log.csv", "Sheet1")


def test_a_large_file_is_not_even_opened(tmp_path):
    with (tmp_path / "log.csv").open("wb") as file:
        file.truncate(MOST_BYTES + 1)
    with pytest.raises(RefusedError, match="larger than 20 MB"):
        read_log(tmp_path, "log.csv")
