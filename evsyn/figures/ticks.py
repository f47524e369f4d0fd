"""Round ends and steps for an axis."""

import math

#: Leading digits of a step.
_DIGITS = (1, 2, 5)


def rounded_up(reach: float, *, least_step: float, most_steps: int) -> tuple[float, float]:
    """Return a round end at or past ``reach``, and the step that divides it.

    Parameters
    ----------
    reach : float
        What the axis must hold, above 0.
    least_step : float
        The finest step: 1, 2 or 5 times a power of ten.
    most_steps : int
        Most steps from 0 to the end.

    Examples
    --------
    >>> rounded_up(27, least_step=1, most_steps=6)
    (30, 5)
    """
    power = math.floor(math.log10(least_step) + 1e-9)
    while True:
        for digit in _DIGITS:
            step = digit * 10.0**power
            steps = math.ceil(reach / step - 1e-9)
            if step >= least_step * (1 - 1e-9) and steps <= most_steps:
                return _plain(steps * step), _plain(step)
        power += 1


def _plain(value: float) -> float:
    value = round(value, 9)
    return int(value) if value == int(value) else value
