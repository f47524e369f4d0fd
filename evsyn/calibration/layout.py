"""What is taken to be true of the reviews that are simulated, and how large their studies are."""

import math
from dataclasses import dataclass

import numpy as np
from scipy.special import expit, logit

from evsyn.audit.power import HIGHEST_RISK
from evsyn.audit.predictive import MOST_CASES
from evsyn.effects.arguments import LARGEST_COUNT
from evsyn.pooling.choose import LEAST_TO_READ
from evsyn.terms import Better

#: A spread beyond this puts settings all over the scale, and nothing can be pooled there.
WIDEST_TAU = 5.0
LEAST_LEVELS = 2


@dataclass(frozen=True, slots=True)
class Layout:
    """The sizes of the studies of a review, and the truth it is drawn from.

    Parameters
    ----------
    sizes : tuple of int
        Patients of each study, at least three studies.
    rate : float
        True rate of the median setting, between 0 and 1.
    tau : float
        True standard deviation of log-odds between settings, from 0 to 5.
    levels : tuple of (str, tuple of int)
        Levels of a stratum, each with the patients of its studies; none, or two or more levels of
        at least three studies. The truth is the same at all of them.
    cases : int or None
        Patients of a new unit; the median study size if ``None``.
    better : Better or None
        Whether fewer or more events are welcome; if ``None``, events that most patients have are
        taken to be welcome, and others not.

    Raises
    ------
    ValueError
        If any of these is out of range.
    """

    sizes: tuple[int, ...]
    rate: float
    tau: float
    levels: tuple[tuple[str, tuple[int, ...]], ...] = ()
    cases: int | None = None
    better: Better | None = None

    def __post_init__(self) -> None:
        if len(self.sizes) < LEAST_TO_READ:
            raise ValueError(
                f"A review is pooled from {LEAST_TO_READ} studies on; this layout has "
                f"{len(self.sizes)}."
            )
        every = (*self.sizes, *(size for _, sizes in self.levels for size in sizes))
        if not all(1 <= size <= LARGEST_COUNT for size in every):
            raise ValueError("The size of a study is a whole number of patients, 1 or more.")
        if not 0 < self.rate < 1:
            raise ValueError(f"The rate lies between 0 and 1, neither of them; got {self.rate:g}.")
        if not (math.isfinite(self.tau) and 0 <= self.tau <= WIDEST_TAU):
            raise ValueError(f"Tau lies between 0 and {WIDEST_TAU:g} log-odds; got {self.tau:g}.")
        if not 1 <= self.unit_cases <= MOST_CASES:
            raise ValueError(f"A unit has from 1 to {MOST_CASES:,} cases; got {self.unit_cases:,}.")
        names = [name for name, _ in self.levels]
        few = any(len(sizes) < LEAST_TO_READ for _, sizes in self.levels)
        if self.levels and (len(names) < LEAST_LEVELS or len(set(names)) < len(names) or few):
            raise ValueError(
                "Levels are compared from two levels on, with different names and three studies "
                "in each."
            )

    @property
    def k(self) -> int:
        """Number of studies."""
        return len(self.sizes)

    @property
    def mu(self) -> float:
        """Log-odds of the median setting."""
        return float(logit(self.rate))

    @property
    def unit_cases(self) -> int:
        """Patients of a new unit."""
        return round(float(np.median(self.sizes))) if self.cases is None else self.cases

    @property
    def direction(self) -> Better:
        """Whether fewer or more events are welcome."""
        if self.better is not None:
            return self.better
        return Better.MORE if self.rate > 0.5 else Better.FEWER

    @property
    def doubled(self) -> float:
        """Rate of a unit at twice the unfavourable risk of the median setting, at most 95%."""
        if self.direction is Better.FEWER:
            return min(2 * self.rate, HIGHEST_RISK)
        return 1 - min(2 * (1 - self.rate), HIGHEST_RISK)

    @property
    def range_of_settings(self) -> tuple[float, float]:
        """True rates between which 95 in 100 settings lie."""
        reach = 1.959964 * self.tau
        return float(expit(self.mu - reach)), float(expit(self.mu + reach))
