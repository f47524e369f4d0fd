"""How many of the cases there should be are in a unit's figures, and over how long."""

from dataclasses import dataclass

from evsyn.extraction.unit import Unit


@dataclass(frozen=True, slots=True)
class Ascertainment:
    """Cases counted against cases there should be.

    Parameters
    ----------
    counted, left_out, expected : int
        Cases in the figures, cases of the period that are not, and cases expected.
    according_to : str
        Where the expected number comes from.
    says_complete : bool
        Whether the file says that every case is counted.
    """

    counted: int
    left_out: int
    expected: int
    according_to: str
    says_complete: bool

    @property
    def share(self) -> float:
        """Cases counted over cases expected; above 1 where more were counted."""
        return self.counted / self.expected

    @property
    def unaccounted(self) -> int:
        """Cases expected that are neither counted nor listed as left out."""
        return max(0, self.expected - self.counted - self.left_out)


def ascertainment(unit: Unit) -> Ascertainment:
    """Return the unit's share of cases ascertained."""
    return Ascertainment(
        counted=sum(group.patients for group in unit.groups),
        left_out=sum(item.count for item in unit.left_out),
        expected=unit.expected_cases.count,
        according_to=unit.expected_cases.according_to,
        says_complete=unit.complete,
    )


def period_years(unit: Unit) -> float:
    """Return the length of the unit's period in years, whole months counted from both ends."""
    first, last = unit.period.from_, unit.period.to
    begin = 12 * int(first[:4]) + (int(first[5:7]) - 1 if len(first) > 4 else 0)
    end = 12 * int(last[:4]) + (int(last[5:7]) if len(last) > 4 else 12)
    return (end - begin) / 12
