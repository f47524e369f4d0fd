"""Scales an effect may be analysed on: there and back."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import TypeAlias

from scipy import special

from evsyn.effects.arguments import Floats

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
        From the analysis scale to the original scale.
    """

    name: str
    forward: Transform
    back: Transform


LOGIT = Scale("logit", special.logit, special.expit)
IDENTITY = Scale("identity", lambda values: values, lambda values: values)

#: Every scale by its public name.
SCALES = {scale.name: scale for scale in (LOGIT, IDENTITY)}
