"""How far the results may move while every typed input stays what it is printed as."""

from collections.abc import Iterable
from typing import TypeAlias

import numpy as np

from evsyn.effects.arguments import Floats
from evsyn.reproduction.recompute import ALSO, Numbers, Place, numbers_of_typings
from evsyn.reproduction.rows import Rows
from evsyn.reproduction.variants import Variant

#: Lowest and highest value found of each number.
Envelope: TypeAlias = dict[Place, tuple[float, float]]

#: Half a unit less a hair, so that no input is moved onto the tie.
_INSIDE = 1 - 1e-9


def envelope_of(rows: Rows, variant: Variant, wanted: Iterable[Place]) -> Envelope:
    """Return the lowest and highest value of each number within the rounding of the rows.

    Each input is moved alone to either end of its rounding; then, for each number, all inputs are
    moved together in the direction that raises it, and in the one that lowers it. Every value
    between two that are found so is taken for some inputs that would be printed alike, since the
    results move without a jump. What lies further out than these corners may be missed: the
    envelope may be a little too narrow and is never too wide. It holds for each number by itself.

    Parameters
    ----------
    rows : Rows
        Means or given effects.
    variant : Variant
        How to pool.
    wanted : iterable of tuple
        Places of the numbers whose ends are sought.
    """
    places = [*dict.fromkeys(place for one in wanted for place in (one, _other(one)))]
    steps = steps_of(rows)
    half = steps.shape[1]
    still = np.zeros_like(steps[:, :1])
    moved = moved_numbers(rows, variant, np.concatenate([still, steps, -steps], axis=1))
    places = [place for place in places if place in moved and np.isfinite(moved[place][0])]
    slopes = np.array([moved[place][1 : 1 + half] - moved[place][1 + half :] for place in places])
    signs = np.unique(np.sign(np.nan_to_num(slopes.reshape(len(places), half))), axis=0)
    corners = np.einsum("ti,cis->cts", np.concatenate([signs, -signs]), steps)
    cornered = moved_numbers(rows, variant, corners)
    found = {place: np.concatenate([moved[place], cornered[place]]) for place in places}
    return {place: (float(np.nanmin(v)), float(np.nanmax(v))) for place, v in found.items()}


def _other(place: Place) -> Place:
    return (*place[:-1], ALSO.get(place[-1], place[-1]))


def steps_of(rows: Rows) -> Floats:
    """Return one step an input that was rounded, shape ``(columns, inputs, studies)``."""
    at = np.argwhere(rows.halves > 0)
    steps = np.zeros((rows.columns.shape[0], len(at), rows.columns.shape[1]))
    for number, (column, study) in enumerate(at):
        steps[column, number, study] = _INSIDE * rows.halves[column, study]
    return steps


def moved_numbers(rows: Rows, variant: Variant, moves: Floats) -> Numbers:
    """Return the numbers of the rows moved so, ``(columns, typings, studies)``.

    Standard deviations and ratios are kept from reaching 0.
    """
    least = np.where(rows.columns > 0, rows.columns * 1e-6, -np.inf)[:, np.newaxis, :]
    columns = rows.columns[:, np.newaxis, :] + moves
    return numbers_of_typings(rows, variant, np.maximum(columns, least))
