"""What a column can look like, gravest first, and what to do about it."""

from enum import Enum


class Likeness(Enum):
    """A kind of identifier: its words after "looks like it holds", and the cure.

    The order is the order of gravity: a column that looks like several is told as the first.
    """

    NHS_NUMBER = ("NHS or CHI numbers", "Delete the column.")
    HOSPITAL_NUMBER = (
        "hospital numbers or other long record numbers",
        "Delete the column; a running number of your own, as 1, 2, 3, may stand in its place.",
    )
    INSURANCE_NUMBER = ("National Insurance numbers", "Delete the column.")
    BIRTH = ("dates of birth", "Delete the column; the age in years may stand in its place.")
    PERSON = ("names or initials of persons", "Delete the column.")
    OPERATOR = ("words other than the roles of operators, which may name a person", "")
    PHONE = ("telephone numbers", "Delete the column.")
    EMAIL = ("e-mail addresses", "Delete the column.")
    ADDRESS = ("addresses", "Delete the column.")
    POSTCODE = ("postcodes", "Delete the column.")
    DATE = ("full dates", "Keep the month alone, as 2024-03.")

    @property
    def words(self) -> str:
        """What the column looks like it holds."""
        return str(self.value[0])

    @property
    def cure(self) -> str:
        """What to do; of operators it depends on the plan and is empty here."""
        return str(self.value[1])

    @property
    def cure_of_cells(self) -> str:
        """What to do where the column is ordinary but for a few cells; empty where it is alike."""
        if self in (Likeness.DATE, Likeness.OPERATOR):
            return ""
        return "Clear those cells, or write there what the column is for; the rest of it may stay."


def gravest(found: set[Likeness]) -> Likeness | None:
    """Return the first in the order of gravity, or ``None`` of none."""
    return next((likeness for likeness in Likeness if likeness in found), None)
