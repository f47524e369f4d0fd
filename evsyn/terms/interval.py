"""An interval with its level and the method that made it."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Interval:
    """Two limits, with the confidence level and the name of the method.

    Parameters
    ----------
    low, high : float
        Limits, on the scale the caller states (proportions lie between 0 and 1).
    level : float
        Two-sided level, as 0.95.
    method : str
        Name of the method, as ``clopper_pearson``.
    """

    low: float
    high: float
    level: float
    method: str

    def to_dict(self) -> dict[str, float | str]:
        """Return the interval as plain data for JSON."""
        return {"low": self.low, "high": self.high, "level": self.level, "method": self.method}
