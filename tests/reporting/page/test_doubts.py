"""A doubt names its study and outcome in words; the file and line come last."""

from evsyn.terms import Severity
from evsyn.wording.page_doubts import subject
from tests.reporting.page.made import page, review
from tests.reporting.page.read_html import parsed


def test_each_doubt_names_its_study_first_and_its_file_and_line_last():
    rows = parsed(page()).by_id("doubts").all("tbody")[0].all("tr")
    found = [item for item in review().findings if item.severity is Severity.DOUBT]
    assert len(rows) == len(found) > 0
    names = {study.name for study in review().studies}
    for row, item in zip(rows, sorted(found, key=lambda one: not one.is_open), strict=True):
        cells = [cell.text for cell in row.all("th", "td")]
        assert cells[0] in names
        assert cells[2] == item.message
        assert cells[-1].endswith(str(item.source))
        assert "." not in cells[1]


def test_a_place_in_a_file_is_said_in_words():
    assert subject("stent.perforation", {"perforation": "Perforation"}) == "Perforation"
    assert subject("overlaps.0.study", {}) == "shared patients"
    assert subject("unheard_of.3", {}) == ""
