"""What guidelines say, as far as it was read: ``guidelines.yaml`` in the folder of a review."""

from enum import StrEnum
from typing import Annotated, Literal

from pydantic import Field

from evsyn.extraction.record import Name, Record, Text

GUIDELINES_FILE = "guidelines.yaml"


class ReadAs(StrEnum):
    """How much of a statement's source was read."""

    TEXT = "text"
    PAGE_START = "page_start"
    ABSTRACT = "abstract"
    TABLE = "table"
    SECOND_HAND = "second_hand"
    NOT_READ = "not_read"


class Status(StrEnum):
    """Whether a statement stands in the edition now in force."""

    CURRENT = "current"
    SUPERSEDED = "superseded"
    UNKNOWN = "unknown"


class GuidelineStatement(Record):
    """One statement of one body, in words of our own."""

    id: Name = Field(description="its short name")
    body: Text = Field(description="the body that made it")
    year: Annotated[int, Field(ge=1900, le=2100)] | None = Field(
        default=None, description="year of the edition"
    )
    topic: Text = Field(description="what it is about, in a word or two")
    statement: Text = Field(description="what it says, in our own words and never quoted")
    values: list[Text] = Field(
        default_factory=list, description="numbers in it, each with its unit, as '14 days'"
    )
    strength: Text | None = Field(
        default=None, description="strength and certainty as the body grades them"
    )
    strength_from_memory: bool = Field(
        default=False, description="true where any of that grading was not read"
    )
    published_in: Text = Field(description="where it was published")
    address: Text | None = Field(default=None, description="web address")
    read: ReadAs = Field(
        description="text, page_start, abstract, table, second_hand or not_read", strict=False
    )
    from_memory: bool = Field(
        default=False, description="true where it was written down from memory"
    )
    status: Status = Field(description="current, superseded or unknown", strict=False)
    superseded_by: Text | None = Field(
        default=None, description="what replaced it: the id of a statement, or an edition"
    )
    note: Text | None = Field(default=None, description="anything a reader should know")


class Guidelines(Record):
    """Recorded statements of guidelines, beside the review they belong to."""

    format: Literal[1] = Field(description="format number of this kind of file")
    guidelines: Name = Field(description="the review's short name")
    invented: bool = Field(default=False, description="true for made-up guidelines")
    no_pass_mark: list[Name] = Field(
        default_factory=list,
        description="outcomes for which no guideline that was read sets a number to be met",
    )
    statements: Annotated[list[GuidelineStatement], Field(min_length=1)] = Field(
        description="the statements"
    )

    def statement(self, name: str) -> GuidelineStatement | None:
        """Return the statement of that id, or ``None``."""
        return next((one for one in self.statements if one.id == name), None)
