"""The extract of one study."""

from typing import Annotated, Any, Literal

from pydantic import Discriminator, Field, Tag

from evsyn.extraction.record import Day, Month, Name, Record, Text
from evsyn.terms import CountedBy, Covers, TextRead

Number = Annotated[int, Field(ge=0)]


def _centres_kind(written: Any) -> str:
    return "names" if isinstance(written, list) else "number"


Centres = Annotated[
    Annotated[Annotated[int, Field(ge=1)], Tag("number")] | Annotated[list[Text], Tag("names")],
    Discriminator(_centres_kind),
]


class Citation(Record):
    """How to find the paper again. What was not read is left out and said in ``note``."""

    authors: Text | None = Field(default=None, description="authors as printed")
    title: Text | None = Field(default=None, description="title as printed")
    journal: Text | None = Field(default=None, description="journal or other container")
    year: Annotated[int, Field(ge=1900, le=2100)] | None = Field(
        default=None, description="year of publication"
    )
    pages: Text | None = Field(default=None, description="volume, issue and pages")
    doi: Text | None = Field(default=None, description="digital object identifier, without http")
    pmid: Text | None = Field(default=None, description="PubMed number")
    address: Text | None = Field(default=None, description="web address read")
    note: Text | None = Field(default=None, description="what of the citation was not read")


class Report(Record):
    """A further paper about the same study."""

    citation: Citation = Field(description="how to find it")
    adds: Text = Field(description="what was taken from it")


class Overlap(Record):
    """Another study that may hold some of the same patients."""

    study: Name = Field(description="the other study's name")
    kind: Literal["possible", "certain"] = Field(description="'possible' or 'certain'")
    reason: Text = Field(description="why it is thought so")
    keep: Name | None = Field(
        default=None, description="for a certain overlap: which of the two is pooled"
    )


class Recruited(Record):
    """When patients were recruited."""

    from_: Month = Field(alias="from", description="first year or month")
    to: Month = Field(description="last year or month")


class Setting(Record):
    """Where and when."""

    centres: Centres | None = Field(default=None, description="number of centres, or their names")
    country: Text | None = Field(default=None, description="country or countries")
    recruited: Recruited | None = Field(default=None, description="dates of recruitment")
    recruited_note: Text | None = Field(
        default=None, description="what the paper says where no dates are given"
    )


class Extracted(Record):
    """Who read the paper, how much of it, and who checked."""

    by: Text = Field(description="initials of the extractor")
    on: Day = Field(description="day of extraction")
    from_: TextRead = Field(
        alias="from", description="full_text, abstract or second_hand", strict=False
    )
    checked_by: Text | None = Field(default=None, description="initials of a second reader")


class Count(Record):
    """One count of one outcome in one arm."""

    events: Number = Field(description="how many had the outcome")
    total: Annotated[int, Field(ge=1)] = Field(description="out of how many")
    of: Name = Field(description="denominator basis, a name from the plan or as_printed")
    window: Name = Field(
        default="not_stated", description="window, a name from the plan or not_stated"
    )
    counted_by: CountedBy = Field(
        default=CountedBy.PATIENT, description="patient, procedure or device", strict=False
    )
    at: Text | None = Field(default=None, description="place in the paper, as 'Table 2, p. 5'")
    printed: Text | None = Field(default=None, description="the percentage as printed")
    derived: Text | None = Field(default=None, description="arithmetic, where not printed as such")
    assumed: bool = Field(
        default=False, description="true where the text does not tie events to this total"
    )
    second_hand: bool = Field(
        default=False, description="true where the count was read outside the paper itself"
    )
    follow_up: Text | None = Field(default=None, description="length of follow-up as printed")
    definition: Text | None = Field(default=None, description="what the paper counted")
    site: Text | None = Field(default=None, description="site of the event, where told")
    attribution: Text | None = Field(default=None, description="cause, where told")
    note: Text | None = Field(default=None, description="anything a reader should know")


class Arm(Record):
    """A group of patients with the same labels."""

    arm: Name = Field(description="name of the arm, unlike any other in the study")
    covers: Covers = Field(default=Covers.PART, description="whole_study or part", strict=False)
    part_of: Name | None = Field(default=None, description="the arm this one lies inside")
    label: Text | None = Field(default=None, description="the paper's own words for the group")
    treatment: Name | None = Field(
        default=None, description="treatment, a name from the plan, where the plan lists them"
    )
    strata: dict[Name, Name] = Field(
        default_factory=dict, description="level in each of the plan's strata"
    )
    characteristics: dict[Name, Text] = Field(
        default_factory=dict, description="facts declared in the plan"
    )
    patients: Annotated[int, Field(ge=1)] = Field(description="number of patients")
    procedures: Annotated[int, Field(ge=1)] | None = Field(
        default=None, description="number of procedures, where told"
    )
    outcomes: dict[Name, Count] = Field(default_factory=dict, description="counts by outcome")


class PrintedShare(Record):
    """A percentage printed elsewhere in the paper, kept so that it can be checked."""

    what: Text = Field(description="what the percentage is of")
    events: Number | None = Field(default=None, description="count, where printed")
    totals: Annotated[list[Annotated[int, Field(ge=1)]], Field(min_length=1)] = Field(
        description="denominators it could belong to"
    )
    printed: Text = Field(description="the percentage as printed")
    at: Text | None = Field(default=None, description="place in the paper")


class PrintedSum(Record):
    """Parts and a total that the paper prints, kept so that they can be added up."""

    what: Text = Field(description="what is added up")
    parts: Annotated[list[Number], Field(min_length=2)] = Field(description="the parts")
    total: Number = Field(description="the total the paper prints")
    at: Text | None = Field(default=None, description="place in the paper")


class AnsweredDoubt(Record):
    """A reader's reply to a doubt."""

    rule: Name = Field(description="name of the check")
    at: Text | None = Field(
        default=None, description="key path the doubt names; left out for all of this rule"
    )
    reason: Text = Field(description="why the value stands")
    by: Text = Field(description="who says so")
    on: Day = Field(description="when")


class Study(Record):
    """The extract of one study, from one paper or several."""

    format: Literal[1] = Field(description="format number of this kind of file")
    study: Name = Field(description="the study's short name, equal to the file's")
    invented: bool = Field(default=False, description="true for a made-up study")
    citation: Citation = Field(description="how to find the paper")
    reports: list[Report] = Field(default_factory=list, description="further papers")
    overlaps: list[Overlap] = Field(default_factory=list, description="shared patients")
    design: Text | None = Field(default=None, description="design as the paper names it")
    setting: Setting = Field(default_factory=Setting, description="where and when")
    extracted: Extracted = Field(description="who read it and how much")
    characteristics: dict[Name, Text] = Field(
        default_factory=dict, description="facts declared in the plan"
    )
    arms: Annotated[list[Arm], Field(min_length=1)] = Field(description="groups of patients")
    also_printed: list[PrintedShare] = Field(
        default_factory=list, description="other percentages worth checking"
    )
    sums: list[PrintedSum] = Field(default_factory=list, description="sums worth checking")
    notes: list[Text] = Field(default_factory=list, description="oddities in words")
    answers: list[AnsweredDoubt] = Field(default_factory=list, description="replies to doubts")

    @property
    def name(self) -> str:
        """Short label for tables: first author and year, or what a reader can find it by."""
        year = self.citation.year
        authors = self.citation.authors
        if authors is None:
            pmid, journal = self.citation.pmid, self.citation.journal
            known = f"PubMed {pmid}" if pmid else journal
            if known is None:
                return self.study
            return f"{known}, {year}" if year else known
        first = authors.split(",")[0].removesuffix(" et al.").removesuffix(" et al")
        words = first.split()
        if len(words) > 1 and words[-1].isupper() and len(words[-1]) <= 4:
            words = words[:-1]
        return f"{' '.join(words)} {year}" if year else " ".join(words)

    def arm_named(self, name: str) -> Arm | None:
        """Return the arm of that name, or ``None``."""
        return next((arm for arm in self.arms if arm.arm == name), None)

    def parts_of(self, arm: Arm) -> list[Arm]:
        """Return the arms directly inside ``arm``; every free arm lies inside the whole study."""
        whole = arm.covers is Covers.WHOLE_STUDY
        return [
            other
            for other in self.arms
            if other is not arm
            and other.treatment == arm.treatment
            and (other.part_of == arm.arm or (whole and other.part_of is None))
        ]
