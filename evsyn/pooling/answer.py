"""The whole answer to one question: rows side by side, and the one to read.

The headline row (DerSimonian-Laird with its ordinary interval on the logit scale) stands first
because the literature prints it. The reading row is the one that sentences, prediction, figures
and audit use; it is chosen once, here, and carries the reason.
"""

from dataclasses import dataclass
from enum import StrEnum

from evsyn.pooling.result import Pooled
from evsyn.terms import Interval


class Show(StrEnum):
    """How much may be shown, by the number of studies and their events."""

    NOTHING = "no_study"
    ONE = "one_study"
    TWO = "two_studies"
    FEW = "three_or_four_studies"
    SOME = "five_to_nine_studies"
    MANY = "ten_studies_or_more"
    ALL_ZERO = "all_zero"
    ALL_FULL = "all_full"
    REFUSED = "not_pooled_by_plan"

    @property
    def pooled(self) -> bool:
        """Whether there is a pooled row at all."""
        return self in (Show.FEW, Show.SOME, Show.MANY)

    @property
    def verdict(self) -> bool:
        """Whether a unit may be told a verdict: five studies or more."""
        return self in (Show.SOME, Show.MANY)


class Row(StrEnum):
    """Rows an answer may hold."""

    HEADLINE = "headline"
    RESTRICTED_ML = "restricted_ml"
    EXACT = "exact"
    BETA_BINOMIAL = "beta_binomial"


class Trigger(StrEnum):
    """Why the exact model is read instead of the two-step one."""

    FEW_IN_A_STUDY = "a study has fewer than 5 events or fewer than 5 non-events"
    FEW_IN_ALL = "fewer than 20 events or non-events in all"
    RARE = "the crude total is below 5% or above 95%"


class Differs(StrEnum):
    """In what two rows disagree enough to matter."""

    POINTS = "point values"
    WIDTHS = "interval widths"


@dataclass(frozen=True, slots=True)
class Disagreement:
    """The smallest and largest value among the rows: proportions, or widths of intervals."""

    kind: Differs
    smallest: float
    largest: float


@dataclass(frozen=True, slots=True)
class Centre:
    """A centre on the log-odds scale, its standard error, and the spread they were taken at."""

    mu: float
    se: float
    tau: float


@dataclass(frozen=True, slots=True)
class Reading:
    """The row to read, why, and what prediction needs of it.

    Parameters
    ----------
    row : Row
        Which row.
    reasons : tuple of str
        Why: each trigger that fired, or that none did.
    pooled : Pooled
        The row itself.
    centre : Centre
        Its centre, standard error and between-study standard deviation, log-odds.
    at_tau_low, at_tau_high : Centre
        Re-estimated at both ends of tau's 95% interval.
    at_tau_hi : Centre or None
        Re-estimated at the larger tau whose profile log-likelihood lies 0.5 below the maximum;
        present where tau is below 0.1 and so may be spread that was missed.
    mean : float
        Mean over settings of the proportion, between 0 and 1; the pooled estimate is the median.
    rho : float or None
        For the beta-binomial row only: intraclass correlation.
    """

    row: Row
    reasons: tuple[str, ...]
    pooled: Pooled
    centre: Centre
    at_tau_low: Centre
    at_tau_high: Centre
    at_tau_hi: Centre | None
    mean: float
    rho: float | None = None


@dataclass(frozen=True, slots=True)
class PoolAnswer:
    """Everything pooled about one set of counts.

    Parameters
    ----------
    events, total : tuple of int
        Counts by study.
    show : Show
        How much may be shown.
    crude : Interval or None
        Exact interval of the summed count; ``None`` without a study, or where the plan forbids
        pooling.
    one_sided : float or None
        One-sided 95% limit where all events are zero (upper) or all are full (lower).
    rows : dict
        Pooled rows by name; empty where nothing may be pooled.
    reading : Reading or None
        The row to read; ``None`` below three studies, or where pooling is refused or fails.
    disagreements : tuple of Disagreement
        In which ways the rows disagree enough to matter; empty where they do not.
    second_prediction : Interval or None
        Prediction at the larger plausible spread, where next to no spread was seen.
    """

    events: tuple[int, ...]
    total: tuple[int, ...]
    show: Show
    crude: Interval | None
    one_sided: float | None
    rows: dict[Row, Pooled]
    reading: Reading | None
    disagreements: tuple[Disagreement, ...] = ()
    second_prediction: Interval | None = None

    @property
    def k(self) -> int:
        """Number of studies."""
        return len(self.events)
