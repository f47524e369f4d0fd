"""Three invented papers go in by the spreadsheet, following the how-to page alone."""

from openpyxl import load_workbook

from evsyn.extraction.load import read_review
from tests.walks.walking import Walk

STUDIES = [
    {"study": "2023-hazel", "authors": "Hazel N, Rush P, Vetch O", "year": 2023,
     "title": "Fifty-eight stents through the channel before resection",
     "journal": "Annals of the Marrowdale Surgical Circle", "pages": "35:41-49",
     "design": "retrospective cohort", "centres": "Cresswater Hospital", "country": "Marrowdale",
     "recruited from": "2017-01", "recruited to": "2021-06", "extracted by": "QF",
     "extracted on": "2026-03-20", "extracted from": "abstract", "recruitment": "consecutive"},
    {"study": "2019-medlar", "authors": "Medlar I, Quillwort S", "year": 2019,
     "title": "Stents for palliation in a small hospital: thirty-seven patients",
     "journal": "Tarrenwold Imaging Record", "pages": "12:88-93", "design": "case series",
     "centres": "Low Fell Infirmary", "country": "Marrowdale", "recruited from": "2013",
     "recruited to": "2017", "extracted by": "QF", "extracted on": "2026-03-20",
     "extracted from": "abstract"},
    {"study": "2021-aspen", "authors": "Aspen L, Bedstraw M, Comfrey J, Dock E", "year": 2021,
     "title": "Stents through the scope in seventy-five patients: palliation and bridge reported "
              "apart",
     "journal": "Quillstead Quarterly of Bowel Surgery", "pages": "4:7-19",
     "design": "prospective cohort", "centres": "Upper Tarre; Nether Tarre",
     "country": "Tarrenwold", "recruited from": "2015-03", "recruited to": "2019-12",
     "extracted by": "QF", "extracted on": "2026-03-20", "extracted from": "abstract"},
]  # fmt: skip
ARMS = [
    {"study": "2023-hazel", "arm": "stent", "covers": "whole_study", "patients": 58,
     "device generation": "through_the_scope", "intent": "bridge_to_surgery"},
    {"study": "2019-medlar", "arm": "stent", "covers": "whole_study", "patients": 37,
     "device generation": "radiological", "intent": "palliation", "operator": "radiologist"},
    {"study": "2021-aspen", "arm": "palliation", "patients": 46,
     "device generation": "through_the_scope", "intent": "palliation"},
    {"study": "2021-aspen", "arm": "bridge", "patients": 29,
     "device generation": "through_the_scope", "intent": "bridge_to_surgery"},
]  # fmt: skip
#: study, arm, outcome, events, total, of, window, at, printed
COUNTS = [
    ("2023-hazel", "stent", "technical_success", 55, 58, "attempted", "at_procedure", "Results",
     "94.8%"),
    ("2023-hazel", "stent", "perforation", 3, 58, "attempted", "30_days", "Results", "5.2%"),
    ("2023-hazel", "stent", "stoma_avoidance", 44, 58, "attempted", "follow_up", "Results",
     "75.9%"),
    ("2019-medlar", "stent", "technical_success", 34, 37, "attempted", "at_procedure", "Results",
     "91.9%"),
    ("2019-medlar", "stent", "perforation", 2, 37, "attempted", "30_days", "Results", "5.4%"),
    ("2019-medlar", "stent", "migration", 4, 34, "placed", "follow_up", "Results", "11.8%"),
    ("2021-aspen", "palliation", "technical_success", 43, 46, "attempted", "at_procedure",
     "Results", "93.5%"),
    ("2021-aspen", "bridge", "technical_success", 28, 29, "attempted", "at_procedure", "Results",
     "96.6%"),
    ("2021-aspen", "palliation", "perforation", 4, 46, "attempted", "30_days", "Results", "8.7%"),
    ("2021-aspen", "bridge", "perforation", 1, 29, "attempted", "30_days", "Results", "3.4%"),
]  # fmt: skip
COLUMNS = ("study", "arm", "outcome", "events", "total", "of", "window", "at", "printed")


def fill(sheet, rows):
    """Type rows below the headings, into the first empty lines."""
    headings = {cell.value: cell.column for cell in sheet[2]}
    line = 3
    while sheet.cell(line, headings["study"]).value is not None:
        line += 1
    for number, row in enumerate(rows, line):
        for heading, value in row.items():
            sheet.cell(number, headings[heading]).value = value


def test_three_papers_by_the_spreadsheet(tmp_path):
    walk = Walk.beside_the_demo(tmp_path)
    walk.type("sheet", "make", "stents", "-o", "papers.xlsx")
    book = load_workbook(tmp_path / "papers.xlsx")
    fill(book["Studies"], STUDIES)
    fill(book["Arms"], ARMS)
    fill(book["Counts"], [dict(zip(COLUMNS, row, strict=True)) for row in COUNTS])
    book.save(tmp_path / "papers.xlsx")

    looked = walk.type("sheet", "read", "stents", "papers.xlsx", "--dry")
    assert "0 faults" in looked
    assert not (walk.review / "2023-hazel.yaml").exists()
    before = {path: path.read_bytes() for path in walk.review.glob("*.yaml")}
    walk.type("sheet", "read", "stents", "papers.xlsx")
    checked = walk.type("check", "stents")
    assert "33 studies read; 0 faults, 5 open doubts" in " ".join(checked.split())
    assert {path: path.read_bytes() for path in before} == before

    review = read_review(walk.review)
    aspen = review.study("2021-aspen")
    assert [arm.patients for arm in aspen.arms] == [46, 29]
    count = review.study("2019-medlar").arms[0].outcomes["migration"]
    assert (count.events, count.total, count.of, count.printed) == (4, 34, "placed", "11.8%")
    again = walk.type("sheet", "read", "stents", "papers.xlsx")
    assert "Nothing to change" in again
    pooled = walk.type("pool", "stents", "perforation")
    assert "in 29 studies" in " ".join(pooled.split())
