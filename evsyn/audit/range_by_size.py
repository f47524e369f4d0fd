"""The range that ordinary new units show, for units of many sizes."""

from dataclasses import dataclass

import numpy as np

from evsyn.audit.power import Counts
from evsyn.audit.predictive import Predictive
from evsyn.audit.verdict import limits


@dataclass(frozen=True, slots=True, eq=False)
class RangeBySize:
    """Lowest and highest count of the range, by number of cases; all of one shape."""

    sizes: Counts
    low: Counts
    high: Counts


def range_by_size(units: Predictive, sizes: Counts) -> RangeBySize:
    """Return the range of counts at each number of cases.

    Parameters
    ----------
    units : Predictive
        The spread of ordinary new units.
    sizes : ndarray of int
        Numbers of cases.

    Notes
    -----
    At each size at most 2.5% of ordinary units lie beyond either end, as in a verdict. There is
    no wider band: a pool does not know its far tails well enough for one.
    """
    found = [limits(units.pmf(n)) for n in sizes.tolist()]
    low = np.array([item.low for item in found], dtype=np.int64)
    high = np.array([item.high for item in found], dtype=np.int64)
    return RangeBySize(sizes, low, high)
