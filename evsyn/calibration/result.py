"""What a calibration found, each number with its Monte Carlo error."""

from dataclasses import dataclass
from enum import StrEnum

from evsyn.calibration.layout import Layout


class Line(StrEnum):
    """A way to pool: the three rows, and the one the tool would choose to be read."""

    HEADLINE = "headline"
    RESTRICTED_ML = "restricted_ml"
    EXACT = "exact"
    READING = "reading"


@dataclass(frozen=True, slots=True)
class Estimated:
    """A mean over simulated reviews, and its Monte Carlo standard error.

    Both are ``nan`` where no review answered, and ``error`` where one did.
    """

    value: float
    error: float


@dataclass(frozen=True, slots=True)
class LineCalibration:
    """How one way to pool does in reviews of a layout.

    Parameters
    ----------
    line : Line
        Which.
    reviews : int
        Reviews simulated for it.
    no_answer : Estimated
        Share of them in which it gave none: no event at all, or events only, or a model that did
        not settle. All that follows is of those with an answer.
    coverage : Estimated
        Share of intervals that held the true rate of the median setting.
    above, below : Estimated
        Share of intervals that lay wholly above it, and wholly below.
    width : Estimated
        Mean width of the interval, as a difference of proportions.
    bias, bias_log_odds : Estimated
        Mean estimate less the truth, as a difference of proportions and of log-odds.
    """

    line: Line
    reviews: int
    no_answer: Estimated
    coverage: Estimated
    above: Estimated
    below: Estimated
    width: Estimated
    bias: Estimated
    bias_log_odds: Estimated


@dataclass(frozen=True, slots=True)
class LevelGap:
    """The odds ratio of one level against another that a line shows where there is none."""

    first: str
    second: str
    log_odds_ratio: Estimated


@dataclass(frozen=True, slots=True)
class StrataCalibration:
    """How one way to test for a difference does where all levels share one truth.

    Parameters
    ----------
    line : Line
        Which: pooled by level and Q-between; restricted ML with one spread; the exact likelihood
        ratio; or the one of the last two that the tool would quote.
    reviews : int
        Reviews simulated for it.
    no_answer : Estimated
        Share of them without a test.
    rejected : Estimated
        Share of tests with P below 0.05.
    gaps : tuple of LevelGap
        Every pair of levels, over the reviews in which both have a value.
    """

    line: Line
    reviews: int
    no_answer: Estimated
    rejected: Estimated
    gaps: tuple[LevelGap, ...]


@dataclass(frozen=True, slots=True)
class UnitCalibration:
    """How often the verdict against such a review flags a new unit.

    Parameters
    ----------
    cases : int
        Patients of the unit.
    reviews : int
        Reviews simulated.
    no_verdict : Estimated
        Share of reviews that give none: fewer than five studies, or none to read.
    more, fewer : Estimated
        Chance that an ordinary unit is called more, and fewer, than the range. A review without a
        verdict flags nobody.
    doubled : Estimated
        Chance that a unit at twice the unfavourable risk is flagged on that side.
    """

    cases: int
    reviews: int
    no_verdict: Estimated
    more: Estimated
    fewer: Estimated
    doubled: Estimated


@dataclass(frozen=True, slots=True)
class Calibration:
    """How far the intervals, tests and verdicts of a layout can be trusted.

    Parameters
    ----------
    layout : Layout
        What was simulated.
    level : float
        Level of the intervals.
    between : str
        Between-study estimator of the headline.
    seed, replications, exact_replications : int
        They reproduce every number; the number of workers changes none.
    lines : tuple of LineCalibration
        One a line.
    strata : tuple of StrataCalibration
        One a line; empty for a layout without levels.
    units : UnitCalibration
        Flags of new units.
    """

    layout: Layout
    level: float
    between: str
    seed: int
    replications: int
    exact_replications: int
    lines: tuple[LineCalibration, ...]
    strata: tuple[StrataCalibration, ...]
    units: UnitCalibration

    def line(self, line: Line) -> LineCalibration:
        """Return one of the lines."""
        return next(one for one in self.lines if one.line is line)
