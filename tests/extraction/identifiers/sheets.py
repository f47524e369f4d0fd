"""Small logs held as their files would give them; every person and number in them is invented."""

from evsyn.extraction.case_log.raw_table import RawFile, RawRow, RawTable, Remark
from evsyn.extraction.identifiers.screen import screen

ROLES = {"surgeon": "surgeon", "gastroenterologist": "gastroenterologist", "gi_team": "GI team"}
#: An honest log around the column under test; forty cases, months and roles.
AROUND = {
    "Case": [str(number) for number in range(1, 41)],
    "Month": [f"2024-{1 + number % 12:02d}" for number in range(40)],
    "Operator": ["surgeon", "Gastroenterologist"] * 20,
    "Perforation": ["no"] * 38 + ["yes", "unknown"],
}


def table(columns, *, sheet=""):
    """Make a table of columns by heading; short columns are filled up with empty cells."""
    longest = max((len(values) for values in columns.values()), default=0)
    filled = [list(values) + [None] * (longest - len(values)) for values in columns.values()]
    lines = zip(*filled, strict=True)
    rows = tuple(RawRow(number, tuple(line)) for number, line in enumerate(lines, start=2))
    return RawTable("log.csv", sheet, tuple(columns), rows)


def found_in(columns, *, roles=ROLES, words=None, others=(), remarks=()):
    said = tuple(Remark("the remark on line 1", text) for text in remarks)
    return screen(RawFile(table(columns), tuple(others), said), roles, words)


def told(findings):
    return " ".join(f"{found.message} {found.cure} {found.source}" for found in findings)
