"""How far a figure may tell a unit's counts, by who will see it."""

from evsyn.audit.outside import outside_count
from evsyn.audit.standing import Standing
from evsyn.extraction.load import CheckedUnit
from evsyn.figures.own_count import OwnCount
from evsyn.reporting.told_counts import Tell, exactly
from evsyn.terms import OVERALL, Audience
from evsyn.wording.audience import (
    INSIDE_MARK,
    INSIDE_SHORT,
    OUTSIDE_MARK,
    OUTSIDE_SHORT,
    release_sentences,
)


def tell_for(checked: CheckedUnit, audience: Audience) -> Tell:
    """Return how far the counts of a unit are told: outside, its wholes as they may be."""
    if audience is Audience.INSIDE or checked.unit.full_release is not None:
        return exactly
    cases = sum(group.patients for group in checked.unit.groups)

    def outside(standing: Standing) -> OwnCount | None:
        if standing.stratum != OVERALL:
            return None
        if checked.unit.release is not None:
            return exactly(standing)
        if standing.unknown:
            # A share of all cases would count the unknown outcomes as none, and be flagged so.
            return OwnCount.withheld()
        return OwnCount.released(outside_count(standing, cases, None).count)

    return outside


def marks_for(
    checked: CheckedUnit, audience: Audience, earlier: CheckedUnit | None = None
) -> tuple[str, str]:
    """Return the words that say who may see a figure, in full and for a slide.

    Parameters
    ----------
    checked : CheckedUnit
        The unit's figures.
    audience : Audience
        Who will see it.
    earlier : CheckedUnit, optional
        The unit's figures of an earlier period, which have a release of their own.
    """
    if audience is Audience.INSIDE:
        return INSIDE_MARK, INSIDE_SHORT
    release = checked.unit.release
    if release is None:
        return OUTSIDE_MARK, OUTSIDE_SHORT
    said = release_sentences(release, None if earlier is None else earlier.unit.release)
    return said, said
