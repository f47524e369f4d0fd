"""Counts of reviews, drawn from a layout."""

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray
from scipy.special import expit

from evsyn.calibration.layout import Layout
from evsyn.cells.cell import Cell, CellTable, Question
from evsyn.terms import Source

Ints = NDArray[np.int64]

#: Where a simulated count stands; the engine asks for a place and does nothing with it.
_SOURCE = Source("simulated", 1)


def draw_events(
    rng: np.random.Generator, layout: Layout, sizes: Sequence[int], reviews: int
) -> Ints:
    """Draw the events of every study of many reviews; shape ``(reviews, studies)``.

    The log-odds of a study are normal about those of the median setting with the layout's spread;
    given them its events are binomial.
    """
    own = expit(layout.mu + layout.tau * rng.standard_normal((reviews, len(sizes))))
    return np.asarray(rng.binomial(np.asarray(sizes), own), dtype=np.int64)


def table_of(events: Sequence[int], total: Sequence[int]) -> CellTable:
    """Return counts as the evidence table of one question."""
    cells = (
        Cell(f"study-{i}", f"Study {i}", None, x, n, "treated", "any", frozenset(), (_SOURCE,))
        for i, (x, n) in enumerate(zip(events, total, strict=True))
    )
    return CellTable(Question("event"), tuple(cells))
