"""A unit's own audit figures: ``unit.yaml``."""

from typing import Annotated, Literal

from pydantic import Field

from evsyn.extraction.record import Day, Month, Name, Record, Text
from evsyn.terms import CountedBy

Number = Annotated[int, Field(ge=0)]


class Period(Record):
    """The months the figures cover."""

    from_: Month = Field(alias="from", description="first month")
    to: Month = Field(description="last month")


class LeftOut(Record):
    """Cases of the period that are not in the figures."""

    count: Number = Field(description="how many")
    why: Text = Field(description="why they are left out")


class Expected(Record):
    """How many cases there should be, from a source other than the audit itself."""

    count: Annotated[int, Field(ge=1)] = Field(description="number expected")
    according_to: Text = Field(description="where that number comes from")


class UnitCount(Record):
    """One count of the unit."""

    events: Number = Field(description="how many had the outcome")
    total: Annotated[int, Field(ge=1)] = Field(description="out of how many")
    of: Name = Field(description="denominator basis, a name from the plan")
    window: Name = Field(default="not_stated", description="window, a name from the plan")
    note: Text | None = Field(default=None, description="anything a reader should know")


class Group(Record):
    """Cases of the unit with the same labels."""

    strata: dict[Name, Name] = Field(description="level in each of the plan's strata")
    patients: Annotated[int, Field(ge=1)] = Field(description="number of patients")
    outcomes: Annotated[dict[Name, UnitCount], Field(min_length=1)] = Field(
        description="counts by outcome"
    )


class Unit(Record):
    """A unit's own figures for a period, frozen on a day."""

    format: Literal[1] = Field(description="format number of this kind of file")
    unit: Name = Field(description="the unit's short name")
    label: Text = Field(description="the unit's name for figures")
    invented: bool = Field(default=False, description="true for made-up figures")
    period: Period = Field(description="months covered")
    frozen_on: Day = Field(description="day the figures were frozen")
    complete: bool = Field(description="true if every case from the first is counted")
    left_out: list[LeftOut] = Field(default_factory=list, description="cases left out, and why")
    follow_up: Text = Field(description="how long cases were followed")
    counted_by: CountedBy = Field(description="patient, procedure or device", strict=False)
    expected_cases: Expected = Field(description="number expected, and its source")
    flow: dict[Name, Number] = Field(
        default_factory=dict, description="cases at each stage of the plan's flow"
    )
    own_studies: list[Name] = Field(
        default_factory=list, description="studies of the review that are the unit's own series"
    )
    groups: Annotated[list[Group], Field(min_length=1)] = Field(description="counts by stratum")
