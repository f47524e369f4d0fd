"""'Ours is lower in palliation than as a bridge': two counts of one unit, side by side."""

from dataclasses import dataclass
from fractions import Fraction

from evsyn.audit.counts import UnitTally
from evsyn.claims.verdict import ClaimVerdict
from evsyn.extraction.claims import Relation


@dataclass(frozen=True, slots=True)
class OwnLevelsFound:
    """What was found of a claim that sets one level of the unit against another.

    Parameters
    ----------
    verdict : ClaimVerdict
        ``CONTRADICTED`` where the counts themselves say otherwise; else ``BEYOND``, since so few
        cases are not tested against each other here.
    relation : Relation
        Lower or higher.
    first, second : UnitTally
        Both counts.
    """

    verdict: ClaimVerdict
    relation: Relation
    first: UnitTally
    second: UnitTally


def weigh_own_levels(first: UnitTally, second: UnitTally, relation: Relation) -> OwnLevelsFound:
    """Weigh 'ours is lower, or higher, in these patients than in those'.

    Parameters
    ----------
    first, second : UnitTally
        The counts of both levels.
    relation : Relation
        ``LOWER_THAN`` or ``HIGHER_THAN``.
    """
    here, there = Fraction(first.events, first.total), Fraction(second.events, second.total)
    is_so = here < there if relation is Relation.LOWER_THAN else here > there
    is_alike = (first.basis, first.window) == (second.basis, second.window)
    is_known = not (first.unknown or second.unknown)
    is_against = is_alike and is_known and not is_so
    verdict = ClaimVerdict.CONTRADICTED if is_against else ClaimVerdict.BEYOND
    return OwnLevelsFound(verdict, relation, first, second)
