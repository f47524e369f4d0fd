"""Effects of two arms of counts: events out of a total in each, one row a study."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from evsyn.effects.arguments import Floats, as_counts, same_length
from evsyn.effects.proportions import EffectSizes
from evsyn.effects.scales import IDENTITY, LOG

#: Contrasts that are ratios, which a study without an event (or with events only) cannot inform.
RATIOS = ("risk_ratio", "odds_ratio", "peto")


@dataclass(frozen=True, slots=True)
class TwoArms:
    """The four cells of each study, arm 1 against arm 2; every field has shape ``(studies,)``.

    Parameters
    ----------
    yes_1, no_1, yes_2, no_2 : ndarray
        Patients with and without the event in each arm.
    """

    yes_1: Floats
    no_1: Floats
    yes_2: Floats
    no_2: Floats

    @property
    def total_1(self) -> Floats:
        """Patients of arm 1."""
        return self.yes_1 + self.no_1

    @property
    def total_2(self) -> Floats:
        """Patients of arm 2."""
        return self.yes_2 + self.no_2

    @property
    def total(self) -> Floats:
        """Patients of both arms."""
        return self.total_1 + self.total_2

    @property
    def has_empty_cell(self) -> NDArray[np.bool_]:
        """Studies in which one of the four cells is 0."""
        return np.asarray(
            (self.yes_1 == 0) | (self.no_1 == 0) | (self.yes_2 == 0) | (self.no_2 == 0),
            dtype=np.bool_,
        )

    @property
    def informs_ratio(self) -> NDArray[np.bool_]:
        """Studies with at least one event and one non-event in both arms together."""
        some, others = self.yes_1 + self.yes_2 > 0, self.no_1 + self.no_2 > 0
        return np.asarray(some & others, dtype=np.bool_)

    def with_half(self, chosen: NDArray[np.bool_]) -> "TwoArms":
        """Return the cells with half added to all four of the chosen studies.

        Each of their denominators grows by 1.

        References
        ----------
        Cochrane Handbook for Systematic Reviews of Interventions 5.1.0, section 9.2.2.2.
        """
        half = 0.5 * chosen
        return TwoArms(self.yes_1 + half, self.no_1 + half, self.yes_2 + half, self.no_2 + half)

    def take(self, chosen: NDArray[np.bool_]) -> "TwoArms":
        """Return the studies chosen by a mask of shape ``(studies,)``."""
        return TwoArms(self.yes_1[chosen], self.no_1[chosen], self.yes_2[chosen], self.no_2[chosen])


def read_two_arms(
    events_1: ArrayLike, total_1: ArrayLike, events_2: ArrayLike, total_2: ArrayLike
) -> TwoArms:
    """Return the checked cells of two arms.

    Parameters
    ----------
    events_1, total_1, events_2, total_2 : array_like of int
        Counts of each arm, shape ``(studies,)``.

    Raises
    ------
    ValueError
        If counts are impossible or lengths differ.
    """
    x_1, n_1 = as_counts(events_1, total_1, names=("events_1", "total_1"))
    x_2, n_2 = as_counts(events_2, total_2, names=("events_2", "total_2"))
    same_length("events_1", x_1, "events_2", x_2)
    return TwoArms(x_1, n_1 - x_1, x_2, n_2 - x_2)


def log_risk_ratios(arms: TwoArms) -> EffectSizes:
    """Return log risk ratios, variances ``1 / x1 - 1 / n1 + 1 / x2 - 1 / n2``.

    Half is added to all four cells of studies with an empty cell, and of no other. Studies without
    an event, or with events only, get a value that must not be used: see
    :attr:`TwoArms.informs_ratio`.

    References
    ----------
    Cochrane Handbook for Systematic Reviews of Interventions 5.1.0, section 9.2.2.2.
    """
    corrected = arms.has_empty_cell
    cells = arms.with_half(corrected)
    ratio = np.log(cells.yes_1 / cells.total_1) - np.log(cells.yes_2 / cells.total_2)
    # One less the risk over the events: the difference of reciprocals without its cancellation.
    variance = cells.no_1 / (cells.yes_1 * cells.total_1)
    variance = variance + cells.no_2 / (cells.yes_2 * cells.total_2)
    return EffectSizes(ratio, variance, corrected, LOG)


def log_odds_ratios(arms: TwoArms) -> EffectSizes:
    """Return log odds ratios, variances the sum of one over each cell.

    Zero cells and source as in :func:`log_risk_ratios`; variance by Woolf B. Ann Hum Genet
    1955;19:251-253.
    """
    corrected = arms.has_empty_cell
    cells = arms.with_half(corrected)
    ratio = np.log(cells.yes_1) - np.log(cells.no_1) - np.log(cells.yes_2) + np.log(cells.no_2)
    variance = 1 / cells.yes_1 + 1 / cells.no_1 + 1 / cells.yes_2 + 1 / cells.no_2
    return EffectSizes(ratio, variance, corrected, LOG)


def risk_differences(arms: TwoArms) -> EffectSizes:
    """Return differences of risks, variances the sum of ``p (1 - p) / n`` of the arms.

    Where both arms are at 0% or 100% that variance would be 0: it alone is then taken from the
    cells with half added, and the difference stays that of the counts.

    References
    ----------
    Cochrane Handbook for Systematic Reviews of Interventions 5.1.0, section 9.4.4.
    """
    flat_1 = (arms.yes_1 == 0) | (arms.no_1 == 0)
    flat_2 = (arms.yes_2 == 0) | (arms.no_2 == 0)
    corrected = flat_1 & flat_2
    cells = arms.with_half(corrected)
    variance = cells.yes_1 * cells.no_1 / cells.total_1**3
    variance = variance + cells.yes_2 * cells.no_2 / cells.total_2**3
    difference = arms.yes_1 / arms.total_1 - arms.yes_2 / arms.total_2
    return EffectSizes(difference, variance, corrected, IDENTITY)


def observed_less_expected(arms: TwoArms) -> tuple[Floats, Floats]:
    """Return events of arm 1 less those expected if both arms were alike, and their variance.

    Returns
    -------
    difference, variance : ndarray
        ``O - E`` and the hypergeometric ``V``; both 0 for studies that do not inform a ratio.

    References
    ----------
    Yusuf S, Peto R, et al. Prog Cardiovasc Dis 1985;27:335-371.
    """
    yes, no, total = arms.yes_1 + arms.yes_2, arms.no_1 + arms.no_2, arms.total
    # Equal to O - E, in the form that changes its sign alone when the arms are swapped.
    difference = (arms.yes_1 * arms.no_2 - arms.yes_2 * arms.no_1) / total
    shares = (arms.total_1 / total) * (arms.total_2 / total)
    return difference, shares * yes * (no / (total - 1))


def peto_log_odds_ratios(arms: TwoArms) -> EffectSizes:
    """Return one-step log odds ratios, ``(O - E) / V`` with variances ``1 / V``.

    No count is changed. Studies that do not inform a ratio get a value that must not be used.

    References
    ----------
    Yusuf S, Peto R, et al. Prog Cardiovasc Dis 1985;27:335-371.
    """
    difference, variance = observed_less_expected(arms)
    usable = np.where(arms.informs_ratio, variance, 1.0)
    unchanged = np.zeros(usable.size, dtype=np.bool_)
    return EffectSizes(difference / usable, 1 / usable, unchanged, LOG)


#: How to form the effects of two arms, by the name of the contrast.
TWO_ARM_EFFECTS = {
    "risk_ratio": log_risk_ratios,
    "odds_ratio": log_odds_ratios,
    "risk_difference": risk_differences,
    "peto": peto_log_odds_ratios,
}
