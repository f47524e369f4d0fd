"""Round ends and steps for an axis."""

import math
from dataclasses import dataclass

#: Leading digits of a step.
_DIGITS = (1, 2, 5)
#: Rates that reach past this share of the whole are shown on the whole of 0 to 100.
_WHOLE_FROM = 0.7
_MOST_STEPS = 6


@dataclass(frozen=True, slots=True)
class RateScale:
    """Ends and tick step of an axis of rates, per 100 patients."""

    start: float
    end: float
    step: float

    @property
    def ticks(self) -> tuple[float, ...]:
        """Tick values from start to end."""
        number = round((self.end - self.start) / self.step)
        return tuple(round(self.start + i * self.step, 6) for i in range(number + 1))


def rate_scale(reach: float, *, is_from_top: bool) -> RateScale:
    """Return the axis that reaches so far from 0, or down from 100.

    Parameters
    ----------
    reach : float
        A proportion.
    is_from_top : bool
        Whether the axis ends at 100 and not at 0: events of nearly all cases.

    Examples
    --------
    >>> rate_scale(0.18, is_from_top=True).ticks
    (80, 85, 90, 95, 100)
    """
    end, step = 100.0, 20.0
    if reach <= _WHOLE_FROM:
        end, step = rounded_up(max(100 * reach, 0.3), least_step=0.1, most_steps=_MOST_STEPS)
    return RateScale(100 - end, 100, step) if is_from_top else RateScale(0, end, step)


def tick_words(value: float) -> str:
    """Write a tick value without needless zeros."""
    return f"{value:g}"


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
