"""The workbook of a review, as someone at a desk would change it."""

from functools import cache
from io import BytesIO
from pathlib import Path
from tempfile import TemporaryDirectory
from zipfile import ZipFile

from openpyxl import load_workbook

from evsyn.extraction.load import read_extracts
from evsyn.extraction.sheet.make import HEADING_ROW, workbook_bytes
from evsyn.extraction.sheet.read import SheetReading, read_sheet
from evsyn.wording.sheet import sheet_words

NAMES = {"Studies": 1, "Arms": 2, "Counts": 3}


@cache
def _of(files) -> bytes:
    """Return the workbook of a review's files; of the same files it is made once."""
    with TemporaryDirectory() as place:
        for name, raw in files:
            (Path(place) / name).write_bytes(raw)
        review = read_extracts(Path(place))
    return workbook_bytes(review.plan, review.studies, sheet_words(review.plan))


class Desk:
    """A review's folder and its workbook, opened to be changed."""

    def __init__(self, folder: Path, path: Path) -> None:
        self.folder, self.path = folder, path
        path.write_bytes(_of(tuple(sorted(self.files().items()))))
        self.book = load_workbook(path)

    def column(self, sheet, heading):
        cells = self.book[sheet][HEADING_ROW]
        return next(cell.column for cell in cells if cell.value == heading)

    def row(self, sheet, *names):
        rows = self.book[sheet].iter_rows(min_row=HEADING_ROW + 1, values_only=True)
        found = [n for n, row in enumerate(rows, HEADING_ROW + 1) if row[: len(names)] == names]
        return found[0]

    def cell(self, sheet, names, heading):
        return self.book[sheet].cell(self.row(sheet, *names), self.column(sheet, heading))

    def put(self, sheet, names, heading, value):
        """Type a value; return the name of the cell, as findings say it."""
        cell = self.cell(sheet, names, heading)
        cell.value = value
        return f"{sheet}!{cell.coordinate}"

    def add(self, sheet, **values):
        """Fill the next row; ``_`` in a keyword stands for the blank of a heading."""
        number = max(
            (cell.row for row in self.book[sheet].iter_rows() for cell in row if cell.value),
            default=0,
        )
        for heading, value in values.items():
            place = self.column(sheet, heading.strip("_").replace("_", " "))
            self.book[sheet].cell(number + 1, place).value = value
        return number + 1

    def new_paper(self, name="2015-rowan"):
        """Fill in a paper that has no fault."""
        self.add(
            "Studies", study=name, authors="Rowan H, Larch A", title="Sixty-two", year=2015,
            centres="Cedar House; Larch House", extracted_by="QF", extracted_on="2026-01-20",
            extracted_from="abstract",
        )  # fmt: skip
        self.add("Arms", study=name, arm="all", covers="whole_study", intent="bridge", patients=62)
        self.add(
            "Counts", study=name, arm="all", outcome="perforation", events=5, total=62,
            of="attempted", window="30_days", at="abstract, line 9", printed="8.1%",
        )  # fmt: skip

    def read(self) -> SheetReading:
        self.book.save(self.path)
        return read_sheet(self.path, self.folder)

    def write(self) -> SheetReading:
        """Read, and put the texts in place."""
        found = self.read()
        for name, text in found.texts.items():
            (self.folder / name).write_bytes(text.encode())
        return found

    def fault(self):
        """Return cell, message and cure of the only fault."""
        (found,) = self.read().faults
        return found.source.key_path, found.message, found.cure

    def files(self):
        return {path.name: path.read_bytes() for path in self.folder.glob("*.yaml")}


def with_part(raw: bytes, part: str, change) -> bytes:
    """Return a package with one of its parts changed."""
    kept = BytesIO()
    with ZipFile(BytesIO(raw)) as old, ZipFile(kept, "w") as new:
        for name in old.namelist():
            content = old.read(name)
            new.writestr(name, change(content.decode()) if name == part else content)
    return kept.getvalue()
