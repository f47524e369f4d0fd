"""Two thousand studies go into a workbook and come out of it, checked, with progress shown.

How long it takes is measured by ``make bench``, over a floor in the same run.
"""

from pathlib import Path

import pytest

from evsyn.extraction.load import read_extracts
from evsyn.extraction.sheet.make import workbook_bytes
from evsyn.extraction.sheet.read import Stage, read_sheet
from evsyn.wording.sheet import sheet_words
from tests.benchmarks.many_studies import many_studies

STUDIES = 2000


@pytest.mark.slow
def test_two_thousand_studies_go_in_and_out(tmp_path: Path) -> None:
    review = read_extracts(many_studies(tmp_path / "many", STUDIES))
    seen: set[Stage] = set()

    def watched(items, stage):
        seen.add(stage)
        return items

    path = tmp_path / "many.xlsx"
    path.write_bytes(workbook_bytes(review.plan, review.studies, sheet_words(review.plan)))
    found = read_sheet(path, many_studies(tmp_path / "empty", 0), watched)
    assert found.faults == ()
    assert len(found.texts) == STUDIES
    assert seen == set(Stage)
