"""What the unit's own count allows to be said, in words."""

from evsyn.audit.counts import UnitTally
from evsyn.audit.exact import exact_interval
from evsyn.claims.unit_counts import OwnLackFound, UnitLack
from evsyn.claims.unit_levels import OwnLevelsFound
from evsyn.claims.unit_rate import OwnRateFound
from evsyn.claims.verdict import ClaimVerdict
from evsyn.extraction.claims import Claim, Relation
from evsyn.extraction.percentages import Fit
from evsyn.extraction.plan import Plan
from evsyn.pooling.review import group_label
from evsyn.terms import NOT_STATED
from evsyn.wording.claims_bound import reach_words
from evsyn.wording.claims_said import Said
from evsyn.wording.numbers import count, counted, percent, span

_LACKS = {
    UnitLack.NO_FILE: "No unit's figures were given: add --unit FILE --for inside|outside.",
    UnitLack.CHARACTERISTIC: "The unit's cases are labelled by strata only, not by what is named.",
    UnitLack.NO_COUNT: "The unit's file holds no such count.",
    UnitLack.WINDOW: "The unit counts over another window, so it cannot speak of this one.",
    UnitLack.BASIS: "The unit counts over another denominator, so it cannot speak of this one.",
    UnitLack.SPLIT: (
        "The unit counts it in several ways, over other denominators or windows, which are not "
        "added up: name 'of' and 'window'."
    ),
    UnitLack.FOLLOW_UP: (
        "Such events go on coming as long as cases are followed, and the unit's file does not say "
        "in numbers how long that was."
    ),
}


def own_count(tally: UnitTally, plan: Plan) -> str:
    """Say the unit's count with its share, its basis and its window."""
    basis = plan.denominators.get(tally.basis, tally.basis)
    when = ""
    if tally.window != NOT_STATED and tally.window in plan.windows:
        when = f", {plan.windows[tally.window].label}"
    number = "none" if tally.events == 0 else f"{tally.events:,}"
    if tally.events == tally.total > 1:
        number = f"all {number}"
    share = percent(tally.events / tally.total)
    return f"{number} of {tally.total:,} {basis}{when} ({share})"


def own_said(tally: UnitTally, plan: Plan) -> str:
    """Say the unit's count with its patients, as ``Ours, palliation: perforation in 3 of 27``."""
    group = group_label(plan, tally.question)
    event = plan.outcomes[tally.question.outcome].event
    return f"Ours{f', {group}' if group else ''}: {event} in {own_count(tally, plan)}"


def own_rate_words(claim: Claim, found: OwnRateFound, plan: Plan) -> Said:
    """Say what the unit's own count shows, and what it leaves open."""
    tally = found.tally
    limits = span(found.interval.low, found.interval.high)
    compatible = f"compatible with a true rate from {limits} (exact two-sided 95%)"
    sentences = [_rate_verdict(claim, found)]
    sentences.append(f"{own_said(tally, plan)}; {compatible}.")
    if tally.unknown:
        wide = span(found.widest.low, found.widest.high)
        cases = counted(tally.unknown, "further case has", "further cases have")
        sentences.append(
            f"{cases} no known outcome; whichever way they went, the data are compatible with "
            f"{wide}."
        )
    return Said(tuple(sentences), _rate_instead(found, plan, limits), (), _scope(found))


def _scope(found: OwnRateFound) -> str:
    if found.verdict is not ClaimVerdict.BORNE_OUT:
        return ""
    return "as a count" if found.relation is Relation.EQUALS else "for the unit's true rate"


def _rate_verdict(claim: Claim, found: OwnRateFound) -> str:
    if found.relation is Relation.EQUALS:
        return _digits(found)
    if found.value is None:
        return _none_or_all(found)
    what = reach_words(claim)
    if found.verdict is ClaimVerdict.BORNE_OUT:
        return f"Every rate the unit's cases are compatible with lies {what}."
    if found.verdict is ClaimVerdict.CONTRADICTED:
        return f"No rate the unit's cases are compatible with lies {what}."
    return f"The unit's cases are compatible with rates {what} and with others."


def _digits(found: OwnRateFound) -> str:
    seen = count(found.tally.events, found.tally.total)
    written = "" if found.value is None else found.value.written
    if found.fit is Fit.ROUNDED:
        said = f"{written} is the unit's {seen}"
    elif found.fit is Fit.TRUNCATED:
        share = percent(found.tally.events / found.tally.total)
        said = f"{written} is the unit's {seen} only with digits cut off: it is {share}"
    else:
        return f"{written} is not what the unit's {seen} gives."
    return f"{said}, of the cases whose outcome is known." if found.tally.unknown else f"{said}."


def _none_or_all(found: OwnRateFound) -> str:
    tally, is_none = found.tally, found.relation is Relation.NONE
    if found.verdict is ClaimVerdict.CONTRADICTED:
        return f"The unit counts {count(tally.events, tally.total)}."
    seen = f"none in {tally.total:,}" if is_none else f"all of {tally.total:,}"
    known = " whose outcome is known" if tally.unknown else ""
    return (
        f"As a count it is borne out: {seen}{known}. As a rate it is more than the data can say: "
        f"{_open(found)}."
    )


def _open(found: OwnRateFound) -> str:
    if found.one_sided is None:
        return ""
    way = "up" if found.tally.events == 0 else "down"
    return f"rates {way} to {percent(found.one_sided)} remain possible (one-sided 95%)"


def _rate_instead(found: OwnRateFound, plan: Plan, limits: str) -> str:
    tally = found.tally
    said = own_said(tally, plan)
    if found.one_sided is not None:
        return f"{said}; {_open(found)}."
    return f"{said}; so many cases leave true rates from {limits} open."


def own_levels_words(claim: Claim, found: OwnLevelsFound, plan: Plan) -> Said:
    """Put two counts of the unit side by side."""
    sides = ". ".join(_with_limits(tally, plan) for tally in (found.first, found.second))
    if found.verdict is ClaimVerdict.CONTRADICTED:
        verdict = "The counts themselves do not say so."
    else:
        verdict = (
            "The counts are put side by side and not tested against each other: so few cases "
            "seldom settle a difference, and overlap of intervals is no test."
        )
    return Said((verdict, f"{sides}."), f"{sides}. That does not tell the two apart.")


def _with_limits(tally: UnitTally, plan: Plan) -> str:
    limits = exact_interval(tally.events, tally.total)
    return f"{own_said(tally, plan)}, exact 95% interval {span(limits.low, limits.high)}"


def own_lack_words(claim: Claim, found: OwnLackFound, plan: Plan) -> Said:
    """Say why no count of the unit can be weighed."""
    label = "" if claim.outcome is None else plan.outcomes[claim.outcome].label
    instead = f"{label}: our figures, as they stand, cannot tell."
    if found.lack is UnitLack.NO_FILE:
        instead = f"{label}: our own figures are not here, so nothing is said of them."
    scope = "since no unit file was given" if found.lack is UnitLack.NO_FILE else ""
    return Said((_LACKS[found.lack],), instead, scope=scope)
