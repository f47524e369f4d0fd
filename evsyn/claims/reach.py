"""The rates of which a statement is true."""

from dataclasses import dataclass
from fractions import Fraction

from evsyn.extraction.claim_value import Amount, Side


@dataclass(frozen=True, slots=True)
class Reach:
    """A stretch of rates.

    Parameters
    ----------
    low, high : Fraction
        Its ends, proportions between 0 and 1.
    side : Side or None
        ``below`` for all rates under ``high``, ``above`` for all over ``low``, neither with the
        number itself; ``None`` for a stretch that holds both its ends.
    """

    low: Fraction
    high: Fraction
    side: Side | None

    def holds(self, rate: Fraction | float) -> bool:
        """Whether the statement is true of a rate; exact for a fraction."""
        return self.holds_all(rate, rate)

    def holds_all(self, low: Fraction | float, high: Fraction | float) -> bool:
        """Whether it is true of every rate from ``low`` to ``high``."""
        if self.side is Side.BELOW:
            return high < self.high
        if self.side is Side.ABOVE:
            return low > self.low
        return self.low <= low and high <= self.high

    def misses_all(self, low: Fraction | float, high: Fraction | float) -> bool:
        """Whether it is true of no rate from ``low`` to ``high``."""
        if self.side is Side.BELOW:
            return low >= self.high
        if self.side is Side.ABOVE:
            return high <= self.low
        return high < self.low or low > self.high

    def at_edge(self, rate: Fraction) -> bool:
        """Whether a rate is the very number that the statement names and leaves out."""
        edge = self.high if self.side is Side.BELOW else self.low
        return self.side is not None and rate == edge


NONE = Reach(Fraction(0), Fraction(0), None)
ALL = Reach(Fraction(1), Fraction(1), None)


def reach_of(value: Amount, side: Side | None = None) -> Reach:
    """Return the rates that a value means.

    Parameters
    ----------
    value : Amount
        A number with or without its side, or a range.
    side : Side, optional
        The side, where the value does not hold it.
    """
    on = side or value.side
    if on is Side.BELOW:
        return Reach(Fraction(0), value.high, on)
    if on is Side.ABOVE:
        return Reach(value.low, Fraction(1), on)
    return Reach(value.low, value.high, None)
