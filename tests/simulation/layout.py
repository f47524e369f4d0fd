"""What is true in a simulated world, and the reviews and units drawn from it."""

from dataclasses import dataclass
from functools import cached_property
from itertools import product

import numpy as np
from scipy import special, stats

from evsyn.audit.power import HIGHEST_RISK
from evsyn.calibration.draw import table_of
from evsyn.cells.cell import CellTable
from evsyn.effects.arguments import Floats
from evsyn.terms import Better

STUDIES = (5, 7, 9, 15, 30)
SPREADS = (0.0, 0.05, 0.3, 0.6, 0.9)
RATES = (0.03, 0.074, 0.30, 0.93)
CASES = (20, 80)
SMALLEST_STUDY, LARGEST_STUDY = 20, 150


@dataclass(frozen=True)
class Layout:
    """One simulated world.

    Parameters
    ----------
    k : int
        Studies in a review.
    tau : float
        True standard deviation of log-odds between settings.
    rate : float
        True rate of the typical setting.
    """

    k: int
    tau: float
    rate: float

    @property
    def better(self) -> Better:
        """Events that most patients have are taken to be welcome, others not."""
        return Better.MORE if self.rate > 0.5 else Better.FEWER

    @property
    def doubled(self) -> float:
        """True rate of a unit at twice the typical unfavourable risk."""
        if self.better is Better.FEWER:
            return min(2 * self.rate, HIGHEST_RISK)
        return 1 - min(2 * (1 - self.rate), HIGHEST_RISK)

    @property
    def share_beyond(self) -> float:
        """Share of ordinary settings whose own risk is above twice the typical one."""
        if self.tau == 0:
            return 0.0
        distance = abs(float(special.logit(self.doubled) - special.logit(self.rate)))
        return float(stats.norm.sf(distance / self.tau))

    def review(self, seed: int, number: int) -> CellTable:
        """Draw the counts of one review.

        Parameters
        ----------
        seed : int
            Seed of the whole simulation.
        number : int
            Which review. It depends on the seed, the layout and this number alone, so neither
            other layouts nor more reviews change it.

        Notes
        -----
        Sizes of studies are even on the log scale from 20 to 150: small series are common.
        """
        place = (self.k, round(1000 * self.tau), round(1000 * self.rate), number)
        rng = np.random.default_rng(np.random.SeedSequence(seed, spawn_key=place))
        low, high = np.log([SMALLEST_STUDY, LARGEST_STUDY]).tolist()
        total = np.rint(np.exp(rng.uniform(low, high, self.k))).astype(np.int64)
        own = special.expit(special.logit(self.rate) + self.tau * rng.standard_normal(self.k))
        return table_of(rng.binomial(total, own).tolist(), total.tolist())

    @cached_property
    def ordinary(self) -> dict[int, Floats]:
        """True chance of each count in an ordinary unit, by its number of cases."""
        return {cases: ordinary_counts(self.rate, self.tau, cases) for cases in CASES}

    @cached_property
    def at_double(self) -> dict[int, Floats]:
        """The same in a unit at twice the typical unfavourable risk."""
        return {n: stats.binom.pmf(np.arange(n + 1), n, self.doubled) for n in CASES}


LAYOUTS = tuple(Layout(*values) for values in product(STUDIES, SPREADS, RATES))


def ordinary_counts(rate: float, tau: float, cases: int) -> Floats:
    """Return the true chance of 0, 1, ..., ``cases`` events in an ordinary unit.

    Notes
    -----
    The binomial averaged over normal log-odds on even steps, apart from the package's own way to
    form such chances.
    """
    z = np.linspace(-9.0, 9.0, 721)
    weight = stats.norm.pdf(z) / stats.norm.pdf(z).sum()
    own = special.expit(special.logit(rate) + tau * z)
    chances: Floats = stats.binom.pmf(np.arange(cases + 1)[:, None], cases, own) @ weight
    return chances
