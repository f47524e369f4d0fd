"""'Our rate is 7%', 'below 10%', 'none of ours': the unit's own count with its exact interval."""

from dataclasses import dataclass
from fractions import Fraction

from evsyn.audit.counts import UnitTally
from evsyn.audit.exact import exact_interval, one_sided_limit
from evsyn.claims.equals import fit_to
from evsyn.claims.reach import ALL, NONE, Reach, reach_of
from evsyn.claims.verdict import ClaimVerdict, by_interval
from evsyn.extraction.claim_value import Amount, Form, Side
from evsyn.extraction.claims import Relation
from evsyn.extraction.percentages import Fit
from evsyn.terms import Interval

_SIDES = {Relation.BELOW: Side.BELOW, Relation.ABOVE: Side.ABOVE}


@dataclass(frozen=True, slots=True)
class OwnRateFound:
    """What was found of a claim about the unit's own rate.

    Parameters
    ----------
    verdict : ClaimVerdict
        A number, by its digits; a bound, by the exact interval with every unknown outcome taken
        both ways; none or all, ``BEYOND`` where the count is so, since it leaves rates open.
    relation : Relation
        What is said.
    value : Amount or None
        The number.
    tally : UnitTally
        The unit's count, of cases whose outcome is known.
    interval : Interval
        Its exact two-sided 95% interval.
    widest : Interval
        The same from the fewest to the most events that the unknown outcomes allow.
    one_sided : float or None
        One-sided 95% limit of none or of all.
    fit : Fit or None
        Of a number: whether the count prints it.
    """

    verdict: ClaimVerdict
    relation: Relation
    value: Amount | None
    tally: UnitTally
    interval: Interval
    widest: Interval
    one_sided: float | None
    fit: Fit | None = None


def weigh_own_rate(tally: UnitTally, relation: Relation, value: Amount | None) -> OwnRateFound:
    """Weigh a claim about the unit's own rate.

    Parameters
    ----------
    tally : UnitTally
        The unit's count.
    relation : Relation
        ``EQUALS``, ``BELOW``, ``ABOVE``, ``BETWEEN``, ``NONE`` or ``ALL``.
    value : Amount or None
        The number; ``None`` for none and all of the cases.
    """
    events, total, unknown = tally.events, tally.total, tally.unknown
    widest = Interval(
        exact_interval(events, total + unknown).low,
        exact_interval(events + unknown, total + unknown).high,
        0.95,
        "clopper_pearson",
    )
    fit = None
    if relation is Relation.EQUALS and value is not None:
        fit = _fit(tally, value)
        verdict = ClaimVerdict.CONTRADICTED if fit is Fit.IMPOSSIBLE else ClaimVerdict.BORNE_OUT
        verdict = ClaimVerdict.BEYOND if unknown and fit is not Fit.IMPOSSIBLE else verdict
    elif value is None:
        meant = NONE if relation is Relation.NONE else ALL
        is_so = meant.holds(Fraction(events, total))
        verdict = ClaimVerdict.BEYOND if is_so else ClaimVerdict.CONTRADICTED
    else:
        verdict = by_interval(widest.low, widest.high, _meant(relation, value))
    return OwnRateFound(
        verdict=verdict,
        relation=relation,
        value=value,
        tally=tally,
        interval=exact_interval(events, total),
        widest=widest,
        one_sided=one_sided_limit(events, total),
        fit=fit,
    )


def _meant(relation: Relation, value: Amount) -> Reach:
    return reach_of(value, _SIDES.get(relation))


def _fit(tally: UnitTally, value: Amount) -> Fit:
    if value.form is Form.COUNT:
        same = (tally.events, tally.total) == (value.events, value.total)
        return Fit.ROUNDED if same else Fit.IMPOSSIBLE
    return fit_to(Fraction(tally.events, tally.total), value)
