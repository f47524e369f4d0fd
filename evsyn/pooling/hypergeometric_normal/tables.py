"""Two-by-two tables with all margins held: the form the exact two-arm likelihood reads.

Given the patients of both arms and the events of both together, the events of arm 1 follow the
noncentral hypergeometric distribution of Fisher, which holds the odds ratio and no baseline risk:
every study's own intercept is conditioned out. Its counts are sums of independent trials
(Harkness WL. Ann Math Stat 1965;36:938-945), which bounds their variance.
"""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from scipy.special import gammaln

from evsyn.effects.arguments import Floats
from evsyn.effects.two_arms import TwoArms

#: The log weights of all possible counts are held; beyond this they would fill the memory.
LARGEST_SPAN = 1_000_000

#: Terms are summed this many square roots of the span to either side of the largest. What is left
#: out is below 2 exp(-2 * 4.5^2) = 5e-18 (Hoeffding W. J Am Stat Assoc 1963;58:13-30).
_REACH = 4.5


@dataclass(frozen=True, slots=True)
class ConditionalTables:
    """Events of arm 1, given all margins, in k studies.

    Parameters
    ----------
    above : ndarray, shape (k,)
        Events of arm 1 less the least the margins allow.
    span : ndarray, shape (k,)
        Most less least events of arm 1 that the margins allow; at least 1.
    log_weights : tuple of ndarray
        For each study the log weight of every possible count, from the least up, at odds ratio 1,
        divided by their sum.
    observed : tuple of ndarray
        Each study's log odds ratio and its variance, half added to every cell.
    """

    above: Floats
    span: Floats
    log_weights: tuple[Floats, ...]
    observed: tuple[Floats, Floats]

    @property
    def k(self) -> int:
        """Number of studies."""
        return int(self.above.size)

    @property
    def one_sided(self) -> bool:
        """Whether arm 1 has the least, or the most, events it can in every study."""
        return bool(not self.above.any() or (self.above == self.span).all())

    @property
    def log_coefficient(self) -> Floats:
        """Nothing: the log mass is complete."""
        return np.zeros(self.k)

    @property
    def crude(self) -> float:
        """One-step common log odds ratio, kept within reach."""
        excess, variance = self.moments(np.zeros((self.k, 1)))
        return float(np.clip(excess.sum() / variance.sum(), -3.0, 3.0))

    @property
    def largest_variance(self) -> Floats:
        """A quarter of the span, as of a sum of so many independent trials."""
        return self.span / 4

    def log_mass(self, log_odds: Floats) -> Floats:
        """Return the log chance of the events of arm 1, shape ``(k, points)``."""
        mass = np.empty(log_odds.shape)
        for study, _, tilted in self._tilted(log_odds):
            top = tilted.max(axis=1)
            mass[study] = -top - np.log(np.exp(tilted - top[:, None]).sum(axis=1))
        return mass

    def moments(self, log_odds: Floats) -> tuple[Floats, Floats]:
        """Return events of arm 1 less their expectation, and their variance."""
        excess, variance = np.empty(log_odds.shape), np.empty(log_odds.shape)
        for study, step, tilted in self._tilted(log_odds):
            chance = np.exp(tilted - tilted.max(axis=1, keepdims=True))
            chance /= chance.sum(axis=1, keepdims=True)
            mean = (chance * step).sum(axis=1)
            excess[study] = -mean
            variance[study] = ((step - mean[:, None]) ** 2 * chance).sum(axis=1)
        return excess, variance

    def _tilted(self, log_odds: Floats) -> Iterator[tuple[int, Floats, Floats]]:
        """Give, study by study, counts less the observed one, and their log weights over its own.

        Shape ``(points, counts)``: at each log odds ratio the counts around the largest term, or
        all, in one row for every point, where they are few. The observed count as origin keeps the
        digits of a small excess.
        """
        for study, weights in enumerate(self.log_weights):
            last, observed = weights.size - 1, int(self.above[study])
            width = 2 * (int(_REACH * np.sqrt(last)) + 2)
            count = np.arange(min(width, last) + 1)[np.newaxis, :]
            if width < last:
                # The log weights are concave: their rises fall, and the mode is where they turn.
                mode = np.searchsorted(-np.diff(weights), log_odds[study])
                count = count + np.clip(mode - width // 2, 0, last - width)[:, np.newaxis]
            step = (count - observed).astype(np.float64)
            tilt = log_odds[study][:, np.newaxis] * step
            yield study, step, weights[count] - weights[observed] + tilt


def conditional_tables(arms: TwoArms) -> ConditionalTables:
    """Return the tables of studies that inform a ratio.

    Raises
    ------
    ValueError
        If a study has more possible counts than can be summed.
    """
    total_1, total_2, events = arms.total_1, arms.total_2, arms.yes_1 + arms.yes_2
    least, most = np.maximum(0, events - total_2), np.minimum(events, total_1)
    if np.any(most - least > LARGEST_SPAN):
        raise ValueError(
            f"the exact model needs studies whose events (or non-events) in all do not exceed "
            f"{LARGEST_SPAN:,}; see events_1[{int(np.argmax(most - least > LARGEST_SPAN))}]"
        )
    weights = tuple(
        _log_weights(*row) for row in zip(total_1, total_2, events, least, most, strict=True)
    )
    half = arms.with_half(np.ones(least.size, dtype=np.bool_))
    log_ratio = np.log(half.yes_1 * half.no_2) - np.log(half.no_1 * half.yes_2)
    noise = 1 / half.yes_1 + 1 / half.no_1 + 1 / half.yes_2 + 1 / half.no_2
    return ConditionalTables(arms.yes_1 - least, most - least, weights, (log_ratio, noise))


def _log_weights(
    total_1: float, total_2: float, events: float, least: float, most: float
) -> Floats:
    x = np.arange(least, most + 1)
    logs = -gammaln(x + 1) - gammaln(total_1 - x + 1)
    logs = logs - gammaln(events - x + 1) - gammaln(total_2 - events + x + 1)
    logs = logs - logs.max()
    return np.asarray(logs - np.log(np.exp(logs).sum()), dtype=np.float64)
