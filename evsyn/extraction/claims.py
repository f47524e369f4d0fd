"""The sentences of a talk or a report, to be weighed: ``claims.yaml``."""

from enum import StrEnum
from typing import Annotated, Literal

from pydantic import Field

from evsyn.extraction.record import Name, Record, Text

#: What a unit's count may be set against, beside a level of its own.
EVIDENCE = "evidence"


class About(StrEnum):
    """What a sentence speaks of."""

    EVIDENCE = "evidence"
    UNIT = "unit"
    GUIDELINE = "guideline"


class Relation(StrEnum):
    """What a sentence says of a rate, or of how many series."""

    EQUALS = "equals"
    BELOW = "below"
    ABOVE = "above"
    BETWEEN = "between"
    NONE = "none"
    MOST = "most"
    ALL = "all"
    AT_LEAST = "at_least"
    LOWER_THAN = "lower_than"
    HIGHER_THAN = "higher_than"


class Asserts(StrEnum):
    """What a sentence says of a recorded statement of a guideline."""

    STATES = "states"
    CURRENT = "current"
    NUMBER = "number"
    STRENGTH = "strength"
    PASS_MARK = "pass_mark"


class Claim(Record):
    """One sentence, and what it says in terms that can be weighed."""

    claim: Name = Field(description="the sentence's short name")
    says: Text = Field(description="the sentence, as the speaker would say it")
    about: About = Field(description="evidence, unit or guideline", strict=False)
    outcome: Name | None = Field(default=None, description="outcome, a name from the plan")
    scope: dict[Name, Text] = Field(
        default_factory=dict,
        description="which patients: a level of a stratum, or of a characteristic, by its name",
    )
    window: Name | None = Field(
        default=None, description="window, a name from the plan; left out for any it accepts"
    )
    of: Name | None = Field(
        default=None,
        description="denominator basis, a name from the plan; left out for any it accepts",
    )
    relation: Relation | None = Field(
        default=None,
        description="equals, below, above, between, none, most, all, at_least, lower_than or "
        "higher_than",
        strict=False,
    )
    value: Text | None = Field(
        default=None,
        description="the number with its decimals, as '7.4%', '1 in 20', '2-8%' or '3 of 41'; for "
        "none, most, all and at_least what the series do, as 'below 5%'",
    )
    series: Text | None = Field(
        default=None, description="for at_least: how many series, as '12' or '12 of 15'"
    )
    than: Name | None = Field(
        default=None,
        description="for lower_than and higher_than: the other level of the stratum in 'scope'; "
        "of a unit also 'evidence'",
    )
    statement: Name | None = Field(
        default=None, description="of a guideline: the recorded statement, by its id"
    )
    asserts: Asserts = Field(
        default=Asserts.STATES,
        description="of a guideline: states, current, number, strength or pass_mark",
        strict=False,
    )
    edition: Annotated[int, Field(ge=1900, le=2100)] | None = Field(
        default=None, description="of a guideline: the year of the edition the sentence names"
    )


class Claims(Record):
    """Sentences that someone wants to say, weighed before they are said."""

    format: Literal[1] = Field(description="format number of this kind of file")
    title: Text = Field(description="the talk or report they are for")
    invented: bool = Field(default=False, description="true for made-up sentences")
    claims: Annotated[list[Claim], Field(min_length=1)] = Field(description="the sentences")
