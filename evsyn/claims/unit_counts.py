"""The unit's own count that a claim speaks of, or why there is none to weigh it by."""

from dataclasses import dataclass
from enum import StrEnum

from evsyn.audit.counts import UnitTally, count_groups, group_level
from evsyn.cells.cell import question_at
from evsyn.claims.held import characteristics_of, question_of
from evsyn.claims.verdict import ClaimVerdict
from evsyn.extraction.claims import Claim
from evsyn.extraction.review import Review
from evsyn.extraction.unit import Unit


class UnitLack(StrEnum):
    """Why no count of the unit can be weighed."""

    NO_FILE = "no_unit_file"
    CHARACTERISTIC = "not_labelled_so"
    NO_COUNT = "not_counted"
    WINDOW = "other_window"
    BASIS = "other_denominator"
    SPLIT = "counted_in_several_ways"
    FOLLOW_UP = "follow_up_unknown"


def unit_tally(
    review: Review, unit: Unit, claim: Claim, level: str | None = None
) -> UnitTally | UnitLack:
    """Add up the groups of the unit that a claim speaks of.

    Parameters
    ----------
    review : Review
        The review whose words both use.
    unit : Unit
        The unit's figures.
    claim : Claim
        A claim about the unit.
    level : str, optional
        Another level of the one stratum its scope names.
    """
    if characteristics_of(review, claim):
        return UnitLack.CHARACTERISTIC
    question = question_of(review, claim, level)
    groups = [
        group
        for group in unit.groups
        if all(group_level(group, stratum) == place for stratum, place in question.places)
    ]
    tallies = count_groups(question_at(question.outcome, question.places), groups)
    if not tallies:
        return UnitLack.NO_COUNT
    in_window = [one for one in tallies if claim.window in (None, one.window)]
    if not in_window:
        return UnitLack.WINDOW
    wanted = [one for one in in_window if claim.of in (None, one.basis)]
    if not wanted:
        return UnitLack.BASIS
    if len(wanted) > 1:
        return UnitLack.SPLIT
    # Late events go on coming, so without a length of follow-up they are a share of nothing.
    window = review.plan.windows.get(wanted[0].window)
    is_told = unit.followed is not None and unit.followed.median_months is not None
    if window is not None and window.is_open and not is_told:
        return UnitLack.FOLLOW_UP
    return wanted[0]


@dataclass(frozen=True, slots=True)
class OwnLackFound:
    """A claim about the unit that no count of it can be weighed by.

    Parameters
    ----------
    lack : UnitLack
        Why not.
    """

    lack: UnitLack

    @property
    def verdict(self) -> ClaimVerdict:
        """``NOTHING_HELD`` where nothing is counted, ``BEYOND`` where it is counted otherwise."""
        nothing = (UnitLack.NO_FILE, UnitLack.CHARACTERISTIC, UnitLack.NO_COUNT)
        return ClaimVerdict.NOTHING_HELD if self.lack in nothing else ClaimVerdict.BEYOND
