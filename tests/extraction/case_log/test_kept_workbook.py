"""The demo's log as a clinic keeps it: months as dates, a hidden key, a filter, a comment."""

import shutil
from pathlib import Path

from evsyn.extraction.load import read_review, read_unit

ROOT = Path(__file__).parents[3]
DEMO = ROOT / "studies" / "demo"


def test_the_workbook_is_counted_as_the_csv_is(tmp_path):
    plan = read_review(DEMO).plan
    from_text = read_unit(DEMO / "unit-tarnbeck.yaml", plan)
    shutil.copy(ROOT / "tests" / "data" / "tarnbeck-cases.xlsx", tmp_path)
    text = (DEMO / "unit-tarnbeck.yaml").read_text(encoding="utf-8")
    path = tmp_path / "unit.yaml"
    path.write_text(text.replace("tarnbeck-cases.csv", "tarnbeck-cases.xlsx"), encoding="utf-8")
    from_book = read_unit(path, plan)
    assert len(from_book.cases) == len(from_text.cases) > 30
    for one, other in zip(from_book.cases, from_text.cases, strict=True):
        assert one.month == other.month
        assert (one.reached, one.outcomes) == (other.reached, other.outcomes)
        assert (one.devices, one.device_ends) == (other.devices, other.device_ends)
    fields = from_book.unit.model_dump(exclude={"case_log"})
    assert fields == from_text.unit.model_dump(exclude={"case_log"})
    # The workbook has an empty line between the mark and the headings.
    (count, first) = (unit.unit.groups[0].source() for unit in (from_book, from_text))
    assert (count.file, count.line) == ("tarnbeck-cases.xlsx", first.line + 1)
