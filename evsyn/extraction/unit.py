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
    unknown: Number = Field(default=0, description="how many of that total have no known outcome")
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


class Followed(Record):
    """How long cases were followed, in numbers."""

    least_days: Number | None = Field(
        default=None, description="every case was followed this long, or to death"
    )
    median_months: Annotated[float, Field(gt=0)] | None = Field(
        default=None, description="median follow-up in months"
    )
    lost: Number | None = Field(default=None, description="cases lost to follow-up")


class LogOutcome(Record):
    """How one outcome is read from a case log."""

    column: Text | None = Field(
        default=None, description="heading of the column that says yes or no"
    )
    reached: Name | None = Field(
        default=None, description="or: the stage of the flow that counts as the outcome"
    )
    opposite: bool = Field(default=False, description="true where a yes means it did not happen")
    of: Name = Field(description="denominator basis: a stage of the flow")
    window: Name = Field(default="not_stated", description="window, a name from the plan")


class CaseLog(Record):
    """A case log, one row a case, from which the counts are made."""

    file: Text = Field(description="the log, .csv or .xlsx, beside this file")
    sheet: Text | None = Field(default=None, description="sheet of the workbook; else the first")
    columns: dict[Name, Text] = Field(
        default_factory=dict,
        description="heading of the column that holds each thing, by the thing's name; a heading "
        "that is the thing's own name or label needs none",
    )
    words: dict[Text, Name] = Field(
        default_factory=dict, description="the log's own words, and the plan's names for them"
    )
    outcomes: dict[Name, LogOutcome] = Field(
        default_factory=dict, description="how each outcome is read"
    )


class Complication(Record):
    """Patients with a complication, early and late."""

    early: Number | None = Field(default=None, description="patients who had it early")
    late: Number | None = Field(default=None, description="patients who had it late")
    ever: Number | None = Field(default=None, description="patients who had it at any time")


class Statement(Record):
    """A sentence about the cases, as a count of those to whom several things apply."""

    count: Number = Field(description="how many")
    who: Annotated[list[Text], Field(min_length=1)] = Field(
        description="what applies to them, as [placed, not relieved]"
    )
    how: Literal["exactly", "at_least", "at_most"] = Field(
        default="exactly", description="exactly, at_least or at_most"
    )


class Release(Record):
    """A person's permission to show exact own counts outside the unit."""

    approved_by: Text = Field(description="the role that approved it")
    on: Day = Field(description="when")
    basis: Text = Field(description="on what grounds")
    levels: bool = Field(
        default=False,
        description="true where counts by level are released too, and not the whole alone",
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
    followed: Followed | None = Field(
        default=None, description="the same in numbers; late events are shares only with it"
    )
    centres: list[Text] = Field(
        default_factory=list, description="names the unit has published under"
    )
    team: list[Text] = Field(
        default_factory=list, description="surnames the unit has published under"
    )
    flow: dict[Name, Number] = Field(
        default_factory=dict, description="cases at each stage of the flow, and at each step"
    )
    complications: dict[Name, Complication] = Field(
        default_factory=dict, description="patients with each complication, early and late"
    )
    patients_end: dict[Name, Number] = Field(
        default_factory=dict, description="where each patient ended"
    )
    devices: Number | None = Field(default=None, description="devices placed, repeats included")
    devices_end: dict[Name, Number] = Field(
        default_factory=dict, description="where each device ended"
    )
    statements: list[Statement] = Field(
        default_factory=list, description="further counts, of cases to whom several things apply"
    )
    own_studies: list[Name] = Field(
        default_factory=list, description="studies of the review that are the unit's own series"
    )
    groups: list[Group] = Field(
        default_factory=list, description="counts by stratum; or else a case log"
    )
    case_log: CaseLog | None = Field(
        default=None, description="a case log from which the counts are made; or else groups"
    )
    release: Release | None = Field(
        default=None, description="permission to show exact own counts outside"
    )

    @property
    def full_release(self) -> Release | None:
        """The release that shows everything outside, counts by level included; else ``None``."""
        return self.release if self.release is not None and self.release.levels else None
