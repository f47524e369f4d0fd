"""The record of a whole held against what its own case mix would give."""

from dataclasses import dataclass

from evsyn.audit.benchmark import Benchmark
from evsyn.audit.comparable import Differs
from evsyn.audit.divisions import Refusal
from evsyn.audit.reasons import Reason
from evsyn.audit.total_notice import TotalNotice
from evsyn.audit.verdict import Limits, Tails, Verdict
from evsyn.cells.cell import Question
from evsyn.terms import Better, Interval


@dataclass(frozen=True, slots=True)
class StandardisedLevel:
    """One level of the unit, and what its studies would give.

    Parameters
    ----------
    question : Question
        The level.
    events, total : int
        The unit's count, of cases whose outcome is known.
    expected : float
        Those cases times the mean rate over settings.
    benchmark : Benchmark
        The pool.
    differs : tuple of Differs
        How denominator and window differ from the pool's.
    used_larger_spread : bool
        Whether the larger plausible spread stands in, since next to none was seen.
    """

    question: Question
    events: int
    total: int
    expected: float
    benchmark: Benchmark
    differs: tuple[Differs, ...]
    used_larger_spread: bool


@dataclass(frozen=True, slots=True)
class Ratio:
    """Observed over expected on the unwelcome side, where a ratio and its limits mean something.

    Parameters
    ----------
    observed : int
        Events where fewer are better; cases without the event where more are.
    expected : float
        As many as would be expected.
    value : float
        One over the other.
    interval : Interval
        Exact Poisson limits of the ratio, the expected number taken as known.
    """

    observed: int
    expected: float
    value: float
    interval: Interval


@dataclass(frozen=True, slots=True)
class Separately:
    """The comparison repeated with every level drawn for itself."""

    limits: Limits
    tails: Tails
    verdict: Verdict


@dataclass(frozen=True, slots=True)
class Standardised:
    """A whole against what its own case mix would give.

    Parameters
    ----------
    strata : tuple of str
        The strata whose levels, or crossed levels, were used.
    levels : tuple of StandardisedLevel
        Every level the unit has cases at; their totals add up to the whole.
    expected : float
        Sum of the levels' expected counts, which use mean rates and not medians.
    excess : float
        Observed less expected.
    ratio : Ratio
        Observed over expected, on the unwelcome side.
    judged : bool
        Whether a verdict could be given.
    verdict : Verdict
        The verdict on the whole count.
    reason : Reason or None
        Why there is none.
    is_unfavourable : bool or None
        Whether the verdict is the unwelcome one; ``None`` where it takes no side.
    centile : float
        Chance of fewer plus half that of as many, between 0 and 1.
    ordinary : Tails
        Chances among ordinary new units with this case mix, one draw shared by all levels.
    average : Tails
        Chances if every unit shared the typical rate of each level.
    limits : Limits
        Range, and the counts at which a verdict would be given.
    notice : TotalNotice or None
        Chance of noticing a unit at twice the typical unfavourable risk at every level; ``None``
        where the risk cannot rise.
    separately : Separately or None
        The same with every level drawn for itself; ``None`` with one level, where it is the same.
    """

    strata: tuple[str, ...]
    levels: tuple[StandardisedLevel, ...]
    expected: float
    excess: float
    ratio: Ratio
    judged: bool
    verdict: Verdict
    reason: Reason | None
    is_unfavourable: bool | None
    centile: float
    ordinary: Tails
    average: Tails
    limits: Limits
    notice: TotalNotice | None
    separately: Separately | None

    @property
    def is_high(self) -> bool:
        """Whether the count lies on the upper side of what ordinary new units show."""
        return self.ordinary.tail_at_least <= self.ordinary.tail_at_most


@dataclass(frozen=True, slots=True)
class Standardisation:
    """What became of a unit's whole count of one outcome.

    Parameters
    ----------
    outcome : str
        The outcome.
    better : Better
        Whether fewer or more events are welcome.
    events, total : int
        The whole count, of cases whose outcome is known.
    unknown : int
        Further cases of the denominator whose outcome is not known.
    refused : tuple of Refusal
        Divisions that could not be used, in the order they were tried.
    found : Standardised or None
        The comparison over the first division that could; ``None`` where none could.
    """

    outcome: str
    better: Better
    events: int
    total: int
    unknown: int
    refused: tuple[Refusal, ...]
    found: Standardised | None
