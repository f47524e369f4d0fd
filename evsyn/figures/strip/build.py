"""From chances to the columns that are drawn."""

import numpy as np

from evsyn.audit.verdict import Limits, Verdict, verdict_at
from evsyn.effects.arguments import Floats
from evsyn.figures.own_count import OwnCount
from evsyn.figures.strip.content import Columns

#: Columns lower than this share of the tallest cannot be seen.
_SEEN = 0.01


def columns(
    ordinary: Floats, average: Floats, limits: Limits, own: OwnCount, *, is_judged: bool
) -> Columns:
    """Return the counts to draw: those whose chance can be seen, both ends of the range, and ours.

    Parameters
    ----------
    ordinary, average : ndarray
        Chance of each count among ordinary new units, and if every unit shared the typical rate;
        shape ``(cases + 1,)``.
    limits : Limits
        Where the range ends.
    own : OwnCount
        Our count; where it is not told exactly, every count it may be is in the picture.
    is_judged : bool
        Whether a verdict could be given.
    """
    either = np.maximum(ordinary, average)
    tallest = float(either.max())
    seen = np.flatnonzero(either >= _SEEN * float(ordinary.max()))
    needed = [int(seen[0]), int(seen[-1]), limits.low, limits.high, *own.possible]
    needed += [x for x in (limits.first_more, limits.last_fewer) if x is not None]
    first, last = min(needed), max(needed)
    return Columns(
        first=first,
        ordinary=tuple(ordinary[first : last + 1].tolist()),
        average=tuple(average[first : last + 1].tolist()),
        tallest=tallest,
        first_more=limits.first_more,
        last_fewer=limits.last_fewer,
        is_judged=is_judged,
    )


def verdicts(limits: Limits, own: OwnCount) -> tuple[Verdict, ...]:
    """Return the verdict on every count that ours may be."""
    return tuple(verdict_at(limits, x) for x in own.possible)
