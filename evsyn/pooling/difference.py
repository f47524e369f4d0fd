"""Do the levels of a stratum differ? One test of difference, asked of a pooled review."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from evsyn.pooling.answer import Row
from evsyn.pooling.strata_test import StrataTest
from evsyn.pooling.tables import PooledTable

LEAST_STUDIES = 3


@dataclass(frozen=True, slots=True)
class Difference:
    """A test of difference between levels, or the reason why there is none.

    Parameters
    ----------
    test : StrataTest or None
        The test quoted.
    reason : str
        Why there is none; empty where there is one.
    shared : tuple of str
        Studies that stand in more than one of the levels tested.
    """

    test: StrataTest | None
    reason: str = ""
    shared: tuple[str, ...] = ()
