"""A unit with a log of cases, written to a folder; every case is invented."""

from pathlib import Path

import yaml

from evsyn.extraction.load import UnreadableError, read_unit
from evsyn.extraction.plan import Plan
from evsyn.extraction.yaml_text import parse_bytes
from tests.extraction.flow.made_up import PLAN

ROLES = """\
audit: {roles: {surgeon: surgeon, physician: gastroenterologist, radiologist: radiologist}}
characteristics:
  arm:
    site: {label: Site, kind: choice, levels: {rectum: rectum, left_colon: left colon}}
    length: {label: Length, kind: number}
"""
MARK = "# invented data\n"
HEADINGS = (
    "month,reached,intent,bridged,stoma,perforation,migration,devices,patient_end,device_end,"
    "operator,site,length,ref,fever"
)
#: Row 3, the first after the mark and the headings; row 4; row 5.
ROWS = (
    "2020-03,relieved,palliation,no,no,no,late,2,alive,migrated;in_place,surgeon,rectum,4.5,a,no",
    "2021-11,placed,bridge,yes,no,early,no,1,died_later,removed,physician,left colon,3,b,yes",
    "2023-12,attempted,bridge,no,yes,no,no,0,lost,,radiologist,rectum,,c,unknown",
)
OUTCOMES = {
    "perforation": {"of": "attempted", "window": "30_days"},
    "success": {"of": "attempted", "reached": "placed", "window": "at_procedure"},
    "stoma_avoidance": {"of": "attempted", "column": "stoma", "opposite": True},
    "fever": {"of": "placed", "column": "fever"},
}


def plan(old="", new=""):
    text = PLAN + ROLES
    assert not old or text.count(old) == 1
    return Plan.model_validate(parse_bytes(text.replace(old, new, 1).encode()).root)


def table(*rows, headings=HEADINGS):
    return MARK + "\n".join([headings, *(rows or ROWS)]) + "\n"


class LogFolder:
    """A unit file with a log beside it."""

    def __init__(self, folder: Path, **fields) -> None:
        self.folder = folder
        self.plan = plan()
        self.log = {"file": "log.csv", "outcomes": OUTCOMES}
        self.fields = fields
        self.write(table())

    def write(self, content, name="log.csv"):
        """Write the log, as text or as bytes."""
        self.log["file"] = name
        raw = content.encode() if isinstance(content, str) else content
        (self.folder / name).write_bytes(raw)
        return self

    def say(self, **fields):
        """Change what the unit file says of the log."""
        self.log |= fields
        return self

    def read(self):
        written = {
            "format": 1,
            "unit": "made",
            "label": "A made unit",
            "invented": True,
            "period": {"from": "2020-01", "to": "2023-12"},
            "frozen_on": "2024-03-01",
            "complete": True,
            "follow_up": "30 days",
            "counted_by": "patient",
            "expected_cases": {"count": 3, "according_to": "stock records"},
            "case_log": self.log,
            **self.fields,
        }
        path = self.folder / "unit.yaml"
        said = {key: value for key, value in written.items() if value is not None}
        path.write_text(yaml.safe_dump(said, sort_keys=False), encoding="utf-8")
        return read_unit(path, self.plan)

    def found(self):
        """Return all findings, whether or not the unit can be read."""
        try:
            return self.read().findings
        except UnreadableError as error:
            return error.findings

    def faults(self):
        """Return each fault as its place and its message."""
        return [
            (str(one.source), one.source.key_path, one.message)
            for one in self.found()
            if one.severity == "fault"
        ]

    def with_cell(self, row, heading, value):
        """Write the usual log with one cell changed; rows are counted from 1 with the headings."""
        names = HEADINGS.split(",")
        rows = [one.split(",") for one in ROWS]
        rows[row - 3][names.index(heading)] = value
        return self.write(table(*(",".join(one) for one in rows)))


def workbook_of(text, path, *, separator=","):
    """Save a CSV text as a workbook, months as a spreadsheet would keep them."""
    from datetime import date

    from openpyxl import Workbook

    book = Workbook()
    sheet = book.worksheets[0]
    for line in text.splitlines():
        cells = line.split(separator)
        row = [
            date(int(one[:4]), int(one[5:]), 1) if one[:2] == "20" and one[4:5] == "-" else one
            for one in cells
        ]
        sheet.append([int(one) if isinstance(one, str) and one.isdigit() else one for one in row])
    book.save(path)
    return book
