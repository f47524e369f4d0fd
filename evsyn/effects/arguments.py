"""What a caller may hand in: plain refusals that name the argument."""

import difflib
from collections.abc import Iterable
from typing import TypeAlias

import numpy as np
from numpy.typing import ArrayLike, NDArray

Floats: TypeAlias = NDArray[np.float64]

#: Above this a count no longer fits a float together with its neighbours.
LARGEST_COUNT = 1e12

#: Estimates and variances outside these bounds would overflow when squared and multiplied.
LARGEST_ESTIMATE = 1e60
SMALLEST_VARIANCE = 1e-60
LARGEST_VARIANCE = 1e60


#: Kinds of array that hold numbers: whole, unsigned, decimal, and Python's own number objects.
_NUMBERS = "iufO"


def as_vector(name: str, values: ArrayLike) -> Floats:
    """Return ``values`` as a one-dimensional float array of finite numbers.

    Raises
    ------
    ValueError
        If the values are not numbers, not one-dimensional, or not finite.
    """
    if isinstance(values, np.ma.MaskedArray):
        raise ValueError(f"{name} must not be a masked array: leave the masked values out")
    given = np.asarray(values)
    if given.size and given.dtype.kind not in _NUMBERS:
        raise ValueError(f"{name} must hold numbers only")
    try:
        vector = given.astype(np.float64)
    except (TypeError, ValueError) as error:
        raise ValueError(f"{name} must hold numbers only") from error
    if vector.ndim != 1:
        raise ValueError(f"{name} must be a flat list, one value a study; got {vector.ndim} axes")
    if not np.all(np.isfinite(vector)):
        raise ValueError(f"{name} must hold finite numbers; {_first(name, ~np.isfinite(vector))}")
    return vector


def as_counts(
    events: ArrayLike, total: ArrayLike, *, names: tuple[str, str] = ("events", "total")
) -> tuple[Floats, Floats]:
    """Return events and total as equal-length arrays of possible counts.

    ``names`` are what the caller calls the two, for the refusals.

    Raises
    ------
    ValueError
        If lengths differ, a count is negative or not whole, a total is 0 or events exceed it.
    """
    of_events, of_total = names
    numerator, denominator = as_vector(of_events, events), as_vector(of_total, total)
    same_length(of_events, numerator, of_total, denominator)
    for name, counts in ((of_events, numerator), (of_total, denominator)):
        refuse(name, counts < 0, "must not be negative")
        refuse(name, counts != np.floor(counts), "must be whole numbers")
        refuse(name, counts > LARGEST_COUNT, f"must not exceed {LARGEST_COUNT:.0e}")
    refuse(of_total, denominator == 0, "must be at least 1")
    refuse(of_events, numerator > denominator, f"must not exceed {of_total}")
    return numerator, denominator


def as_estimates(estimate: ArrayLike, variance: ArrayLike) -> tuple[Floats, Floats]:
    """Return estimates and sampling variances as equal-length arrays.

    Raises
    ------
    ValueError
        If lengths differ, a variance is not above 0, or a value is too large or small to pool.
    """
    values, spread = as_vector("estimate", estimate), as_vector("variance", variance)
    same_length("estimate", values, "variance", spread)
    refuse("variance", spread <= 0, "must be above 0")
    outside = (spread < SMALLEST_VARIANCE) | (spread > LARGEST_VARIANCE)
    bounds = f"{SMALLEST_VARIANCE:.0e} and {LARGEST_VARIANCE:.0e}"
    refuse("variance", outside, f"must lie between {bounds}")
    refuse(
        "estimate",
        np.abs(values) > LARGEST_ESTIMATE,
        f"must lie within plus or minus {LARGEST_ESTIMATE:.0e}",
    )
    return values, spread


def as_level(level: float) -> float:
    """Return a confidence level, refusing anything not strictly between 0 and 1.

    Raises
    ------
    ValueError
        If the level lies outside, as 95 for 0.95 does.
    """
    try:
        inside = 0 < level < 1
    except TypeError:
        inside = False
    if not inside:
        raise ValueError(f"level must lie between 0 and 1, as 0.95; got {level!r}")
    return float(level)


def known_word(name: str, word: str, known: Iterable[str]) -> str:
    """Return ``word`` if it is one of the known ones.

    Raises
    ------
    ValueError
        If it is not; the message offers the nearest known word.
    """
    choices = list(known)
    if word in choices:
        return word
    near = difflib.get_close_matches(str(word), choices, n=1, cutoff=0.0)
    listed = ", ".join(choices)
    raise ValueError(f"{name} {word!r} is not known; did you mean {near[0]!r}? Known: {listed}")


def same_length(first: str, a: Floats, second: str, b: Floats) -> None:
    """Refuse two vectors of unequal length with a ``ValueError`` that names both."""
    if a.size != b.size:
        raise ValueError(
            f"{first} and {second} must be equally long; got {a.size} {first}, {b.size} {second}"
        )


def refuse(name: str, wrong: NDArray[np.bool_], rule: str) -> None:
    """Refuse with a ``ValueError`` that states the rule and points to the first wrong entry."""
    if np.any(wrong):
        raise ValueError(f"{name} {rule}; {_first(name, wrong)}")


def _first(name: str, wrong: NDArray[np.bool_]) -> str:
    return f"see {name}[{int(np.argmax(wrong))}]"
