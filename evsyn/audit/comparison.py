"""One count set against one pool."""

from dataclasses import dataclass

from scipy import special

from evsyn.audit.power import Power, power
from evsyn.audit.predictive import (
    is_finite,
    knows_spread,
    predictive,
    same_rate,
    spread_used,
    student,
)
from evsyn.audit.verdict import Limits, Tails, Verdict, limits, tails, verdict
from evsyn.pooling.answer import Centre, PoolAnswer
from evsyn.terms import Better


@dataclass(frozen=True, slots=True)
class AtSpread:
    """The comparison repeated with another spread between studies."""

    tau: float
    tails: Tails
    verdict: Verdict


@dataclass(frozen=True, slots=True)
class Comparison:
    """Where a count lies among ordinary new units of its size.

    Parameters
    ----------
    judged : bool
        Whether a verdict could be given: five studies or more, some idea of their spread, not
        both sides withheld, and a count among the possible ones that would lie outside.
    verdict : Verdict
        The verdict; ``NONE`` where it is not judged, or points a way that may not be said.
    is_unfavourable : bool or None
        Whether the verdict is the unwelcome one; ``None`` where it takes no side.
    centile : float
        Chance of fewer plus half that of as many, between 0 and 1.
    ordinary : Tails
        Chances among ordinary new units.
    average : Tails
        Chances if every unit shared the typical rate.
    expected_count : float
        Cases times the mean rate over settings.
    limits : Limits
        Range, and the counts at which a verdict would be given.
    power : Power or None
        What the cases could have shown; ``None`` where the risk cannot rise.
    tau : float or None
        Spread used, log-odds; ``None`` for a beta-binomial row.
    used_larger_spread : bool
        Whether that is the larger plausible spread, since next to none was seen.
    at_low, at_high : AtSpread or None
        The same at both ends of the 95% interval of the spread; the verdict stays the one above.
        ``None`` for a beta-binomial row, and where nothing could be estimated at that end.
    """

    judged: bool
    verdict: Verdict
    is_unfavourable: bool | None
    centile: float
    ordinary: Tails
    average: Tails
    expected_count: float
    limits: Limits
    power: Power | None
    tau: float | None
    used_larger_spread: bool
    at_low: AtSpread | None
    at_high: AtSpread | None

    @property
    def is_high(self) -> bool:
        """Whether the count lies on the upper side of what ordinary new units show."""
        return self.ordinary.tail_at_least <= self.ordinary.tail_at_most


def compare(
    events: int,
    cases: int,
    answer: PoolAnswer,
    *,
    better: Better,
    years: float,
    more: bool = True,
    fewer: bool = True,
) -> Comparison:
    """Set a count against a pool.

    Parameters
    ----------
    events, cases : int
        The unit's count.
    answer : PoolAnswer
        A pool with a row to read.
    better : Better
        Whether fewer or more events are welcome.
    years : float
        Years the cases were gathered in.
    more, fewer : bool
        Which verdicts may be said.

    Raises
    ------
    ValueError
        If the pool has no row to read, or none that can predict, or the number of cases is out of
        range.
    """
    reading = answer.reading
    if reading is None:
        raise ValueError("there is no row to read, so nothing to compare with")
    units = predictive(reading, answer.k)
    pmf = units.pmf(cases)
    judged = answer.show.verdict and knows_spread(reading)
    reach = limits(pmf, more=more and judged, fewer=fewer and judged)
    judged = reach.first_more is not None or reach.last_fewer is not None
    more, fewer = more and judged, fewer and judged
    found = verdict(pmf, events, more=more, fewer=fewer)
    ordinary = tails(pmf, events)

    def at(centre: Centre) -> AtSpread | None:
        if reading.rho is not None or not is_finite(centre):
            return None
        again = student(centre, answer.k).pmf(cases)
        told = verdict(again, events, more=more, fewer=fewer)
        return AtSpread(centre.tau, tails(again, events), told)

    used = spread_used(reading)
    return Comparison(
        judged=judged,
        verdict=found,
        is_unfavourable=found.unfavourable(better),
        centile=ordinary.centile,
        ordinary=ordinary,
        average=tails(same_rate(reading, answer.k).pmf(cases), events),
        expected_count=cases * reading.mean,
        limits=reach,
        power=power(
            reach,
            units=units,
            typical=float(special.expit(reading.centre.mu)),
            cases=cases,
            years=years,
            better=better,
        ),
        tau=used.tau if used is not None and reading.rho is None else None,
        used_larger_spread=used is not reading.centre,
        at_low=at(reading.at_tau_low),
        at_high=at(reading.at_tau_high),
    )
