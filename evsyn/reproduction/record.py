"""A published pooling as a reader types it: the rows of the plot, and what is printed of them."""

from enum import StrEnum
from typing import Annotated, Literal

from pydantic import AfterValidator, Field

from evsyn.extraction.record import Name, Record, Text
from evsyn.reproduction.printed_number import printed_number


def _is_number(text: str) -> str:
    printed_number(text)
    return text


def _is_exact(text: str) -> str:
    if printed_number(text).mark:
        raise ValueError("a number without '<' or '>'")
    return text


#: A number as printed, with its decimals.
Printed = Annotated[Text, AfterValidator(_is_number)]
#: One that is read into the pooling, so that it cannot be a bound.
Given = Annotated[Text, AfterValidator(_is_exact)]


class Measure(StrEnum):
    """What the rows of the plot measure."""

    RISK_RATIO = "risk ratio"
    ODDS_RATIO = "odds ratio"
    HAZARD_RATIO = "hazard ratio"
    OTHER_RATIO = "other ratio"
    RISK_DIFFERENCE = "risk difference"
    MEAN_DIFFERENCE = "mean difference"
    STANDARDISED_MEAN_DIFFERENCE = "standardised mean difference"
    PROPORTION = "proportion"
    OTHER = "other"

    @property
    def is_ratio(self) -> bool:
        """Whether it is pooled as a logarithm."""
        return self.value.endswith("ratio")


class Arm(Record):
    """One arm of one study: a count, or a mean with its standard deviation."""

    events: int | None = Field(default=None, ge=0, description="patients with the event")
    mean: Given | None = Field(default=None, description="the mean, as printed")
    sd: Given | None = Field(default=None, description="the standard deviation, as printed")
    total: int = Field(ge=1, description="patients of the arm")
    percent: Printed | None = Field(default=None, description="the printed percentage, as 7.7%")


class PrintedEffect(Record):
    """What the plot prints of the effect of one study."""

    estimate: Printed | None = Field(default=None, description="the study's effect, as printed")
    low: Printed | None = Field(default=None, description="its lower limit, as printed")
    high: Printed | None = Field(default=None, description="its upper limit, as printed")


class Row(Record):
    """One row of the plot."""

    study: Text = Field(description="the row's label, as printed")
    group: Text | None = Field(default=None, description="the subgroup the row stands in")
    first: Arm | None = Field(
        default=None, description="the first arm: {events, total} or {mean, sd, total}"
    )
    second: Arm | None = Field(default=None, description="the second arm, in the same form")
    events: int | None = Field(
        default=None, ge=0, description="events, where the row is a proportion"
    )
    total: int | None = Field(
        default=None, ge=1, description="patients, where the row is a proportion"
    )
    percent: Printed | None = Field(default=None, description="the printed percentage, as 7.7%")
    estimate: Given | None = Field(
        default=None, description="the effect, where the paper gives no arms"
    )
    low: Given | None = Field(default=None, description="the lower 95% limit of that effect")
    high: Given | None = Field(default=None, description="the upper 95% limit of that effect")
    se: Given | None = Field(
        default=None,
        description="in place of limits: the standard error; of a ratio, both on the log scale",
    )
    weight: Printed | None = Field(default=None, description="the printed weight in per cent")
    printed: PrintedEffect | None = Field(
        default=None, description="the effect printed beside counts or means, to be checked"
    )


class PrintedLine(Record):
    """What is printed of one pool: the total, or a subgroup."""

    estimate: Printed | None = Field(default=None, description="the pooled value")
    low: Printed | None = Field(default=None, description="its lower 95% limit")
    high: Printed | None = Field(default=None, description="its upper 95% limit")
    q: Printed | None = Field(default=None, description="Cochran's Q, often printed as Chi2")
    df: int | None = Field(default=None, ge=0, description="degrees of freedom of Q")
    p_heterogeneity: Printed | None = Field(default=None, description="P of Q")
    i2: Printed | None = Field(default=None, description="I2 in per cent")
    tau2: Printed | None = Field(default=None, description="tau2, the variance between studies")
    tau: Printed | None = Field(default=None, description="tau, its square root")
    z: Printed | None = Field(
        default=None, description="the statistic of the test for effect, z or t, without its sign"
    )
    p_effect: Printed | None = Field(default=None, description="P of the test for effect")
    on_scale: Printed | None = Field(
        default=None, description="the pooled value on the scale it was pooled on, as log odds"
    )
    se_on_scale: Printed | None = Field(default=None, description="its standard error there")
    q_likelihood: Printed | None = Field(
        default=None, description="the likelihood-ratio form of Q, of an exact model"
    )
    prediction_low: Printed | None = Field(
        default=None, description="lower limit of the prediction interval"
    )
    prediction_high: Printed | None = Field(
        default=None, description="upper limit of the prediction interval"
    )


class PrintedGroup(PrintedLine):
    """What is printed of one subgroup."""

    group: Text = Field(description="the subgroup, as in its rows")


class BetweenGroups(Record):
    """The printed test between subgroups."""

    q: Printed | None = Field(default=None, description="Q between subgroups")
    df: int | None = Field(default=None, ge=0, description="its degrees of freedom")
    p: Printed | None = Field(default=None, description="its P")
    i2: Printed | None = Field(default=None, description="I2 between subgroups, in per cent")


class PrintedAsymmetry(Record):
    """The printed test for asymmetry of the plot."""

    test: Literal["egger"] = Field(description="egger")
    intercept: Printed | None = Field(default=None, description="the intercept")
    t: Printed | None = Field(default=None, description="the t statistic")
    p: Printed | None = Field(default=None, description="its P")


class PrintedResult(Record):
    """Everything that is printed of the pooling."""

    overall: PrintedLine | None = Field(default=None, description="the line of the total")
    groups: list[PrintedGroup] = Field(default_factory=list, description="one item a subgroup line")
    between_groups: BetweenGroups | None = Field(
        default=None, description="the test between subgroups"
    )
    asymmetry: PrintedAsymmetry | None = Field(
        default=None, description="the test for asymmetry of the plot"
    )


class PublishedPooling(Record):
    """A published pooling, typed from the paper."""

    format: Literal[1] = Field(description="format of this file: 1")
    pooling: Name = Field(description="a short name for it")
    about: Text = Field(description="the citation: authors, title, journal, year, pages")
    doi: Text | None = Field(default=None, description="the DOI of the paper")
    at: Text | None = Field(default=None, description="where in the paper, as Fig 3, p. 7")
    topic: Text | None = Field(default=None, description="what is pooled, in words")
    invented: bool = Field(default=False, description="true where the pooling is made up")
    measure: Measure = Field(
        description="risk ratio, odds ratio, hazard ratio, other ratio, risk difference, mean "
        "difference, standardised mean difference, proportion or other",
        strict=False,
    )
    stated_method: Text | None = Field(
        default=None, description="the method as the paper states it, in its own words"
    )
    rows: list[Row] = Field(min_length=2, description="the rows of the plot")
    printed: PrintedResult = Field(description="what is printed of the pooling")
    remark: Text | None = Field(default=None, description="anything else a reader must know")
