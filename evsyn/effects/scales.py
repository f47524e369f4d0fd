"""Scales an effect may be analysed on: there and back."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import TypeAlias

import numpy as np
from scipy import special

from evsyn.effects.arguments import Floats
from evsyn.effects.freeman_tukey import double_arcsine, proportion_of

Transform: TypeAlias = Callable[[Floats], Floats]


@dataclass(frozen=True, slots=True)
class Scale:
    """A one-to-one, increasing change of scale.

    Parameters
    ----------
    name : str
        Public name, as ``logit``.
    forward : callable
        From the original scale to the analysis scale.
    back : callable
        From the analysis scale to the original scale; what lies outside the range of ``forward``
        goes to its nearer end.
    for_print : bool
        Whether the scale is offered only to match what is printed elsewhere.
    at_size : callable or None
        For a scale that depends on the number of patients: the scale at one size. ``forward`` and
        ``back`` are then those of very large studies.
    """

    name: str
    forward: Transform
    back: Transform
    for_print: bool = False
    at_size: "Callable[[float], Scale] | None" = None


def _exponential(values: Floats) -> Floats:
    # A limit beyond the largest float is infinite, which is what it means.
    with np.errstate(over="ignore"):
        return np.asarray(np.exp(values), dtype=np.float64)


def _unit_interval(values: Floats) -> Floats:
    return np.clip(values, 0.0, 1.0)


def _sine_squared(angle: Floats) -> Floats:
    return np.asarray(np.sin(np.clip(angle, 0.0, np.pi / 2)) ** 2, dtype=np.float64)


def _freeman_tukey(name: str, angles: float) -> Scale:
    """Return the double arcsine as a sum of two angles (2), or as their mean (1)."""

    def at_size(size: float) -> Scale:
        return replace(
            scale,
            forward=lambda p: angles / 2 * double_arcsine(p, size),
            back=lambda t: proportion_of(2 / angles * t, size),
        )

    scale = Scale(
        name,
        forward=lambda p: angles * np.arcsin(np.sqrt(p)),
        back=lambda t: _sine_squared(t / angles),
        for_print=True,
        at_size=at_size,
    )
    return scale


LOGIT = Scale("logit", special.logit, special.expit)
IDENTITY = Scale("identity", lambda values: values, lambda values: values)
LOG = Scale("log", np.log, _exponential)
ARCSINE = Scale("arcsine", lambda p: np.arcsin(np.sqrt(p)), _sine_squared, for_print=True)
FREEMAN_TUKEY = _freeman_tukey("freeman_tukey", 2)
FREEMAN_TUKEY_MEAN = _freeman_tukey("freeman_tukey_mean", 1)
RAW = Scale("raw", lambda values: values, _unit_interval, for_print=True)

#: Every scale by its public name.
SCALES = {
    scale.name: scale
    for scale in (LOGIT, IDENTITY, LOG, ARCSINE, FREEMAN_TUKEY, FREEMAN_TUKEY_MEAN, RAW)
}
