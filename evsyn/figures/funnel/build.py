"""From counts and what they are set against to the lines of a funnel."""

from collections.abc import Iterable, Sequence

import numpy as np

from evsyn.audit.funnel import (
    AgainstTarget,
    FixedTarget,
    Flag,
    against_target,
    interpolated_limits,
    stepped_limits,
)
from evsyn.audit.overdispersion import Overdispersion
from evsyn.audit.power import Counts
from evsyn.audit.range_by_size import RangeBySize
from evsyn.effects.arguments import Floats
from evsyn.figures.funnel.content import Curve, FunnelPoint, Place, RangeBand, Spot, Stroke
from evsyn.figures.own_count import OwnCount
from evsyn.figures.ticks import rounded_up

#: Most numbers of cases at which a line is computed.
_MOST_SIZES = 400
#: Where the axis ends, against the largest unit: one unit alone shows how the funnel narrows.
_ROOM_ALONE, _ROOM = 2.0, 1.06
_SHORTEST, _WITHOUT_UNITS = 20, 50

_SPOTS = {Flag.NONE: Spot.PLAIN, Flag.ALERT: Spot.ALERT, Flag.ALARM: Spot.ALARM}


def cases_end(points: Iterable[OwnCount]) -> int:
    """Return where the axis of cases ends; it depends on numbers of cases alone."""
    totals = [own.total for own in points if own.total is not None]
    if not totals:
        return _WITHOUT_UNITS
    room = _ROOM_ALONE if len(totals) == 1 else _ROOM
    end, _ = rounded_up(max(_SHORTEST, room * max(totals)), least_step=1, most_steps=8)
    return int(end)


def sizes_to(end: int) -> Counts:
    """Return the numbers of cases at which lines are computed: all of them, or evenly spread."""
    step = -(-end // _MOST_SIZES)
    return np.arange(1, end + 1, step, dtype=np.int64)


def target_flags(own: OwnCount, target: FixedTarget) -> AgainstTarget | None:
    """Return how a count stands to a target; ``None`` where that is not the same for all it may be.

    Flag and side are then those of every count it may be; the tails only of one told exactly.
    """
    if own.total is None or not own.possible:
        return None
    found = [against_target(x, own.total, target) for x in own.possible]
    first = found[0]
    alike = all((f.flag, f.is_above) == (first.flag, first.is_above) for f in found)
    return first if alike else None


def flag_spot(found: AgainstTarget | None) -> Spot:
    """Return the mark of a flag."""
    return Spot.PLAIN if found is None else _SPOTS[found.flag]


def target_curves(
    target: FixedTarget, end: int, *, is_alone: bool, wide: Overdispersion | None = None
) -> tuple[Curve, ...]:
    """Return the lines around a fixed target.

    Parameters
    ----------
    target : FixedTarget
        The target and its levels.
    end : int
        Where the axis of cases ends.
    is_alone : bool
        Whether one unit is shown: its lines are stepped, those of several smooth.
    wide : Overdispersion, optional
        A spread between units that widens further lines.
    """
    sizes = sizes_to(end)
    curves = []
    for flag, stroke in ((Flag.ALERT, Stroke.ALERT), (Flag.ALARM, Stroke.ALARM)):
        limits = stepped_limits if is_alone else interpolated_limits
        low, high = limits(sizes, target.rate, target.tail(flag))
        places = _steps if is_alone else _run
        # Where no count is flagged the line lies at the end of what is possible.
        curves.append(Curve(stroke, False, places(sizes, np.nan_to_num(low, nan=0.0))))
        curves.append(Curve(stroke, True, places(sizes, np.nan_to_num(high, nan=1.0))))
    if wide is not None and wide.is_triggered:
        for flag, stroke in ((Flag.ALERT, Stroke.WIDE_ALERT), (Flag.ALARM, Stroke.WIDE_ALARM)):
            low, high = wide.limits(sizes, target.rate, target.tail(flag))
            curves.append(Curve(stroke, False, _within(sizes, low)))
            curves.append(Curve(stroke, True, _within(sizes, high)))
    return tuple(curve for curve in curves if curve.places)


def range_band(found: RangeBySize, *, is_judged: bool) -> RangeBand:
    """Return the band of ordinary new units, stepped half way to the first count outside."""
    low = np.clip((found.low - 0.5) / found.sizes, 0.0, 1.0)
    high = np.clip((found.high + 0.5) / found.sizes, 0.0, 1.0)
    return RangeBand(_steps(found.sizes, low), _steps(found.sizes, high), is_judged)


def drawn_points(points: Sequence[FunnelPoint]) -> tuple[FunnelPoint, ...]:
    """Return the points of which something is drawn."""
    return tuple(point for point in points if point.is_drawn)


def _run(sizes: Counts, shares: Floats) -> tuple[Place, ...]:
    return tuple(zip(sizes.tolist(), shares.tolist(), strict=True))


def _within(sizes: Counts, shares: Floats) -> tuple[Place, ...]:
    """Leave out what lies below 0 or above 1 and bounds nothing."""
    inside = (shares > 0) & (shares < 1)
    return _run(sizes[inside], shares[inside])


def _steps(sizes: Counts, shares: Floats) -> tuple[Place, ...]:
    """Return a flat step around each number of cases."""
    edges = [0.0, *((sizes[1:] + sizes[:-1]) / 2).tolist()]
    edges.append(float(sizes[-1]) + 0.5)
    places: list[Place] = []
    for i, share in enumerate(shares.tolist()):
        places += [(edges[i], share), (edges[i + 1], share)]
    return tuple(places)
