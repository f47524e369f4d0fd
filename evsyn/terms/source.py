"""Where a value was written, and where in the paper it was read."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Source:
    """The place a value came from.

    Parameters
    ----------
    file : str
        Path of the extract, relative to the review folder, with forward slashes.
    line : int
        Line of the file, counted from 1; 0 for the file as a whole.
    key_path : str
        Keys down to the value, joined by dots; of a count, its arm and outcome.
    place : str
        Place in the paper as the extractor wrote it; empty where none was given.
    """

    file: str
    line: int
    key_path: str = ""
    place: str = ""

    def __str__(self) -> str:
        return f"{self.file}, line {self.line}" if self.line else self.file

    def to_dict(self) -> dict[str, str | int]:
        """Return the source as plain data for JSON."""
        return {
            "file": self.file,
            "line": self.line,
            "key_path": self.key_path,
            "place": self.place,
        }
