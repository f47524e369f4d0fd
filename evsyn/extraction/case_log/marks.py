"""An invented log says so itself, and no other does."""

from collections.abc import Iterator

from evsyn.extraction.case_log.csv_table import COMMENT
from evsyn.extraction.case_log.raw_table import RawFile
from evsyn.extraction.case_log.refused import fault
from evsyn.extraction.case_log.spelling import spelled
from evsyn.extraction.unit import Unit
from evsyn.terms import Finding, Source

MARK = f"{COMMENT} invented data"


def is_marked(raw: RawFile) -> bool:
    """Return whether a log says that it is invented, above its table or by a column."""
    meant = spelled(MARK)
    first = spelled(raw.remarks[0].text) if raw.remarks else ""
    headings = {spelled(heading) for heading in raw.table.headings}
    return first.startswith(meant) or spelled(MARK.removeprefix(COMMENT)) in headings


def mark_faults(raw: RawFile, unit: Unit) -> Iterator[Finding]:
    """Yield a fault where the log and the unit file do not agree on being invented."""
    marked = is_marked(raw)
    if marked and not unit.invented:
        message = "the log says that it is invented, and the unit file does not"
        cure = "Write 'invented: true' in the unit file, or give the real log."
        yield fault(Source(raw.table.file, 1), message, cure)
    elif unit.invented and not marked:
        message = "the unit is invented, and the log does not say so"
        cure = f"Write '{MARK}' on its first line (in a workbook: in its first cell)."
        yield fault(Source(raw.table.file, 1), message, cure)
