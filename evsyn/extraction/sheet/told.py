"""How faults and doubts of a workbook are told: by sheet and cell."""

from evsyn.terms import Finding, Severity, Source

RULE = "sheet"
WHY = (
    "A cell of a workbook must say what an extract can hold; a fault names sheet and cell, and "
    "nothing is written. A doubt is told whenever the workbook is read, and stands in no file."
)


class SheetError(Exception):
    """Raised for a workbook that cannot be read at all; holds what is wrong and what to do."""

    def __init__(self, message: str, cure: str, cell: str = "") -> None:
        super().__init__(message)
        self.message, self.cure, self.cell = message, cure, cell

    def of(self, file: str) -> Finding:
        """Return the fault, of a file."""
        return fault(file, self.cell, self.message, self.cure)


def fault(file: str, cell: str, message: str, cure: str) -> Finding:
    """Return a fault of one cell, as ``Counts!E14``."""
    return Finding(RULE, Severity.FAULT, Source(file, 0, cell), message, cure)


def doubt(file: str, cell: str, message: str, cure: str) -> Finding:
    """Return a doubt about one cell."""
    return Finding(RULE, Severity.DOUBT, Source(file, 0, cell), message, cure)


def note(file: str, cell: str, message: str, cure: str) -> Finding:
    """Return a note on a cell, or on the workbook where the cell is empty."""
    return Finding(RULE, Severity.NOTE, Source(file, 0, cell), message, cure)
