"""The plan of a review: ``review.yaml``."""

from typing import Annotated, Any, Literal

from pydantic import Discriminator, Field, Tag

from evsyn.extraction.record import Day, Name, Record, Text
from evsyn.terms import Better


class SearchedSource(Record):
    """One dated source of a search."""

    name: Text = Field(description="the database, register or website searched")
    on: Day = Field(description="the day it was last searched")
    strategy: Text | None = Field(default=None, description="the search as it was run")
    records: Annotated[int, Field(ge=0)] | None = Field(
        default=None, description="number of records it gave"
    )


class Window(Record):
    """A stretch of time in which an outcome was looked for."""

    label: Text = Field(description="the window in words, as 'within 30 days'")
    days: Annotated[int, Field(ge=0)] | None = Field(
        default=None, description="its length in days; left out where it has no fixed end"
    )
    ends: Text | None = Field(
        default=None,
        description="for one without a length: the event that ends it, as 'the planned operation'; "
        "without either it is open, and its events depend on how long cases were followed",
    )

    @property
    def is_open(self) -> bool:
        """Whether it ends only with follow-up."""
        return self.days is None and self.ends is None


class Outcome(Record):
    """One outcome, with what the review accepts as a count of it."""

    label: Text = Field(description="name for headings, as 'Perforation'")
    event: Text = Field(description="one of them inside a sentence, as 'perforation'")
    events: Text = Field(description="several of them inside a sentence, as 'perforations'")
    better: Better = Field(description="'fewer' or 'more': which way is good", strict=False)
    definition: Text | None = Field(default=None, description="what counts as the outcome")
    denominators: Annotated[list[Name], Field(min_length=1)] = Field(
        description="accepted denominator bases, the target first"
    )
    windows: list[Name] = Field(
        default_factory=list, description="accepted windows, the target first; empty accepts none"
    )
    assumed_risks: list[Annotated[float, Field(gt=0, lt=1)]] = Field(
        default_factory=list,
        description="for comparisons: risks under the second treatment, as 0.3, at which the "
        "effect is stated per 1,000",
    )
    do_not_pool: Text | None = Field(
        default=None, description="reason why counts are shown and not pooled"
    )
    counted_as: Text | None = Field(
        default=None,
        description="the stage or step of a case it counts, as 'placed' or 'not stoma'",
    )


class LabelledStratum(Record):
    """A way of dividing arms by a label written in each extract."""

    label: Text = Field(description="name for headings, as 'Device generation'")
    levels: dict[Name, Text] = Field(description="each level's name and its words")
    asks: Text = Field(description="the question, as 'how the device was delivered'")
    look_up: Text | None = Field(
        default=None, description="what to look for in a paper that does not state it"
    )


class EraStratum(Record):
    """A way of dividing studies by when their patients were recruited."""

    label: Text = Field(description="name for headings, as 'Era of recruitment'")
    cut_year: Annotated[int, Field(ge=1900, le=2100)] = Field(
        description="first year of the later era"
    )
    shift: Annotated[int, Field(ge=1, le=10)] = Field(
        default=2, description="the answer is repeated this many years either side"
    )
    stands_in_for: Name | None = Field(
        default=None, description="the stratum this era stands in for where papers do not state it"
    )


def _stratum_kind(written: Any) -> str:
    dated = isinstance(written, EraStratum) or (isinstance(written, dict) and "cut_year" in written)
    return "era" if dated else "labelled"


def _search_kind(written: Any) -> str:
    return "sources" if isinstance(written, list) else "none"


Stratum = Annotated[
    Annotated[LabelledStratum, Tag("labelled")] | Annotated[EraStratum, Tag("era")],
    Discriminator(_stratum_kind),
]
Search = Annotated[
    Annotated[Literal["none"], Tag("none")] | Annotated[list[SearchedSource], Tag("sources")],
    Discriminator(_search_kind),
]


class Characteristic(Record):
    """A fact noted about a study or an arm, usable later as a stratum or a covariate."""

    label: Text = Field(description="name for headings")
    kind: Literal["text", "number", "choice"] = Field(description="text, number or choice")
    levels: dict[Name, Text] = Field(
        default_factory=dict, description="for a choice: each level's name and its words"
    )


class Characteristics(Record):
    """Facts the review collects besides counts."""

    study: dict[Name, Characteristic] = Field(default_factory=dict, description="of a study")
    arm: dict[Name, Characteristic] = Field(default_factory=dict, description="of an arm")


class Comparison(Record):
    """Two treatments to be compared within studies."""

    label: Text = Field(description="name for headings, as 'Stent against emergency surgery'")
    first: Name = Field(description="the first treatment, a name from 'treatments'")
    second: Name = Field(description="the treatment it is set against")
    contrast: Literal["risk_ratio", "odds_ratio", "risk_difference"] = Field(
        default="risk_ratio", description="risk_ratio, odds_ratio or risk_difference"
    )


class Step(Record):
    """Something that may happen to a case beside the stages of the flow."""

    label: Text = Field(description="the step in words, as 'had a stoma made'")
    within: Name = Field(description="the stage or step it can only happen within")
    complication: bool = Field(
        default=False, description="true where a unit counts it early and late"
    )


class DeviceEnd(Record):
    """Where a device may have ended."""

    label: Text = Field(description="the end in words, as 'removed at the operation'")
    of: Name | None = Field(
        default=None, description="the step or complication its patient must have had, if any"
    )


class Course(Record):
    """What may happen to a case, so that a unit's figures can be held together."""

    early_days: Annotated[int, Field(ge=1)] = Field(
        default=30, description="a complication is early up to this day, late after it"
    )
    steps: dict[Name, Step] = Field(
        default_factory=dict, description="steps and complications beside the flow, by name"
    )
    patients_end: dict[Name, Text] = Field(
        default_factory=dict, description="where a patient may have ended, being alive included"
    )
    patients_end_of: Name | None = Field(
        default=None, description="the stage of which each patient ended somewhere"
    )
    devices_end: dict[Name, DeviceEnd] = Field(
        default_factory=dict, description="where a device may have ended"
    )
    devices_of: Name | None = Field(
        default=None, description="the stage at which a patient holds a device"
    )


class Primary(Record):
    """The one indicator that is looked at first, named before the figures are seen."""

    outcome: Name = Field(description="outcome, by its name")
    stratum: Name | None = Field(default=None, description="stratum, where it is a level")
    level: Name | None = Field(default=None, description="level, where it is one")


class Target(Record):
    """A fixed rate around which a performance funnel may be drawn."""

    rate: Annotated[float, Field(gt=0, lt=1)] = Field(description="the rate, as 0.074")
    according_to: Text = Field(description="who set it, and from what")
    decided_on: Day = Field(description="when it was set")


class AuditPlan(Record):
    """What was settled about a unit's audit before its figures were seen."""

    primary: Primary | None = Field(default=None, description="the one primary indicator")
    targets: dict[Name, Target] = Field(
        default_factory=dict, description="fixed target of an outcome, by the outcome's name"
    )
    alert: Annotated[float, Field(gt=0.5, lt=1)] = Field(
        default=0.95, description="level of the alert line around a fixed target"
    )
    alarm: Annotated[float, Field(gt=0.5, lt=1)] = Field(
        default=0.998, description="level of the alarm line around a fixed target"
    )
    roles: dict[Name, Text] = Field(
        default_factory=dict, description="roles an operator may have, and their words"
    )


class Pooling(Record):
    """Choices that settle how counts are pooled; all have defaults."""

    between: Literal["dersimonian_laird", "restricted_ml"] = Field(
        default="dersimonian_laird", description="between-study variance of the headline row"
    )
    level: Annotated[float, Field(gt=0.5, lt=1)] = Field(
        default=0.95, description="confidence level of every interval"
    )
    study_interval: Literal["clopper_pearson", "wilson", "mid_p", "jeffreys"] = Field(
        default="clopper_pearson", description="interval of study rows, one for all of them"
    )
    procedures_per_patient: Annotated[float, Field(ge=1, le=2)] = Field(
        default=1.1, description="per-procedure counts enter up to this many procedures a patient"
    )


class Plan(Record):
    """The plan of a review, fixed before the counts are pooled."""

    format: Literal[1] = Field(description="format number of this kind of file")
    review: Name = Field(description="the review's short name")
    title: Text = Field(description="title for pages and figures")
    question: Text = Field(description="the question in one sentence")
    invented: bool = Field(default=False, description="true for a made-up review")
    fixed_on: Day = Field(description="the day the plan was fixed")
    search: Search = Field(description="'none', or the dated sources searched")
    search_note: Text | None = Field(default=None, description="how the papers were come by")
    population: Text = Field(
        default="patients", description="who is counted, in a word or two, as 'patients'"
    )
    denominators: dict[Name, Text] = Field(description="each denominator basis and its words")
    windows: dict[Name, Window] = Field(default_factory=dict, description="windows by name")
    flow: list[Name] = Field(
        default_factory=list, description="stages of a case, each within the one before"
    )
    outcomes: Annotated[dict[Name, Outcome], Field(min_length=1)] = Field(
        description="outcomes by name"
    )
    treatments: dict[Name, Text] = Field(
        default_factory=dict,
        description="treatments of arms and their words; shares are pooled over the first",
    )
    comparisons: dict[Name, Comparison] = Field(
        default_factory=dict, description="comparisons between treatments, by name"
    )
    strata: dict[Name, Stratum] = Field(
        default_factory=dict, description="ways of dividing the studies, by name"
    )
    characteristics: Characteristics = Field(
        default_factory=Characteristics, description="declared facts about studies and arms"
    )
    pooling: Pooling = Field(default_factory=Pooling, description="pooling choices")
    course: Course = Field(default_factory=Course, description="what may happen to a case")
    audit: AuditPlan = Field(default_factory=AuditPlan, description="what settles a unit's audit")
