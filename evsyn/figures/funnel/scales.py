"""Which numbers of cases and which shares a funnel shows, and where they fall."""

import math
from dataclasses import dataclass
from itertools import pairwise

from evsyn.figures.funnel.content import FunnelContent, Place
from evsyn.figures.ticks import RateScale, rate_scale

#: Free room past the farthest unit.
_HEADROOM = 1.08
#: The lines are held within the axis from this part of the axis of cases on.
_HELD_FROM = 0.3


def shares_for(content: FunnelContent) -> RateScale:
    """Return the axis that holds every unit and, but for the smallest units, the lines.

    Rare events are shown from 0; events of nearly all cases up to 100.
    """
    held = [share for point in content.points for share in point.shares]
    held += [] if content.centre is None else [content.centre]
    lines = [curve.places for curve in content.curves]
    if content.band is not None:
        lines += [content.band.lower, content.band.upper]
    limits = [
        share
        for places in lines
        for cases, share in places
        if cases >= _HELD_FROM * content.cases_end
    ]
    if not held:
        return RateScale(0, 100, 20)
    if 1 - min(held) < max(held):
        reach = max(_HEADROOM * (1 - min(held)), *(1 - share for share in limits), 0.0)
        return rate_scale(reach, is_from_top=True)
    return rate_scale(max(_HEADROOM * max(held), *limits, 0.0), is_from_top=False)


@dataclass(frozen=True, slots=True)
class Ground:
    """The rectangle of a funnel, with its two scales."""

    shares: RateScale
    cases_end: int
    left: float
    right: float
    top: float
    bottom: float

    def x(self, cases: float) -> float:
        """Return the position of a number of cases."""
        return self.left + min(1.0, cases / self.cases_end) * (self.right - self.left)

    def y(self, share: float) -> float:
        """Return the height of a share, held at the ends of the axis."""
        part = (100 * share - self.shares.start) / (self.shares.end - self.shares.start)
        return self.bottom - min(1.0, max(0.0, part)) * (self.bottom - self.top)

    def runs(self, places: tuple[Place, ...]) -> list[list[tuple[float, float]]]:
        """Return a line as the stretches of it that lie within the axis."""
        low, high = self.shares.start / 100, self.shares.end / 100
        found: list[list[tuple[float, float]]] = []
        run: list[tuple[float, float]] = []
        for (n1, s1), (n2, s2) in pairwise(places):
            part = _clipped(s1, s2, low, high)
            if part is None or n1 > self.cases_end:
                continue
            start, end = part
            one = (self.x(n1 + start * (n2 - n1)), self.y(s1 + start * (s2 - s1)))
            other = (self.x(n1 + end * (n2 - n1)), self.y(s1 + end * (s2 - s1)))
            if not run or math.dist(run[-1], one) > 1e-6:
                run = [one]
                found.append(run)
            run.append(other)
        return found


def _clipped(one: float, other: float, low: float, high: float) -> tuple[float, float] | None:
    """Return which part of the way from one share to another lies between two limits."""
    start, end = 0.0, 1.0
    for limit, sign in ((low, 1.0), (high, -1.0)):
        a, b = sign * (one - limit), sign * (other - limit)
        if a < -1e-12 and b < -1e-12:
            return None
        if a < 0 < b:
            start = max(start, a / (a - b))
        elif b < 0 < a:
            end = min(end, a / (a - b))
    return (start, end) if start <= end else None
