"""Two thousand studies go into a workbook and come out of it, checked, in under a minute."""

import re
import time
from pathlib import Path

import pytest

from evsyn.extraction.load import read_extracts
from evsyn.extraction.sheet.make import workbook_bytes
from evsyn.extraction.sheet.read import Stage, read_sheet
from evsyn.wording.sheet import sheet_words

DEMO = Path(__file__).parent.parent.parent / "studies" / "demo"
STUDIES, SECONDS = 2000, 60


@pytest.mark.slow
def test_two_thousand_studies_take_less_than_a_minute(tmp_path: Path) -> None:
    many, empty = tmp_path / "many", tmp_path / "empty"
    for folder in (many, empty):
        folder.mkdir()
        (folder / "review.yaml").write_bytes((DEMO / "review.yaml").read_bytes())
    files = sorted(DEMO.glob("[12]*.yaml"))
    for number in range(STUDIES):
        file = files[number % len(files)]
        name = f"{file.stem}-{number:04}"
        text = re.sub(r"(?m)^study: .*$", f"study: {name}", file.read_text(encoding="utf-8"))
        # No two copies may share their patients, or the checks find millions of pairs.
        text = re.sub(r"(?m)^overlaps:\n(?:[ -].*\n)+", "", text)
        text = re.sub(r"(?m)^    - (\w+)", rf"    - \1 {number}", text)
        (many / f"{name}.yaml").write_text(text, encoding="utf-8")
    seen: set[Stage] = set()

    def watched(items, stage):
        seen.add(stage)
        return items

    # The time of the processor: what else the machine does is not counted.
    start = time.process_time()
    review = read_extracts(many)
    path = tmp_path / "many.xlsx"
    path.write_bytes(workbook_bytes(review.plan, review.studies, sheet_words(review.plan)))
    found = read_sheet(path, empty, watched)
    taken = time.process_time() - start
    assert found.faults == ()
    assert len(found.texts) == STUDIES
    assert seen == set(Stage)
    assert taken < SECONDS
