"""'Ours is lower than the literature', in words: the place among ordinary new units."""

from evsyn.audit.verdict import Limits, Verdict
from evsyn.claims.unit_place import OwnPlaceFound
from evsyn.claims.verdict import ClaimVerdict
from evsyn.extraction.claims import Claim, Relation
from evsyn.extraction.plan import Plan
from evsyn.terms import OVERALL
from evsyn.wording.audit_caveats import caveat_sentences, reason_sentences
from evsyn.wording.audit_verdict import verdict_sentence
from evsyn.wording.claims_said import Said
from evsyn.wording.claims_unit import own_said
from evsyn.wording.numbers import counted
from evsyn.wording.standardised import standardised_sentences

NOT_BY_OVERLAP = (
    "A unit is weighed by its place among ordinary new units of its size, never by whether its "
    "interval overlaps that of the pool."
)


def own_place_words(claim: Claim, found: OwnPlaceFound, plan: Plan) -> Said:
    """Say where the unit's count lies, what differs, and what so few cases could have shown."""
    sentences = (_verdict(found), *_place(found, plan), NOT_BY_OVERLAP)
    return Said(sentences, _instead(found, plan))


def _place(found: OwnPlaceFound, plan: Plan) -> list[str]:
    standing = found.standing
    if standing is None:
        return []
    whole = found.audit.whole(standing.outcome) if standing.stratum == OVERALL else None
    if whole is not None:
        return list(standardised_sentences(whole, plan))
    if standing.comparison is None:
        return reason_sentences(standing, plan)
    said = [verdict_sentence(standing, standing.comparison)]
    return said + caveat_sentences(standing, plan)


def _verdict(found: OwnPlaceFound) -> str:
    if found.standing is None:
        return "Strata are audited one by one, so a crossing of them has no place among units."
    if found.place is None:
        return "The unit's count has no place among ordinary new units."
    way = "fewer" if found.relation is Relation.LOWER_THAN else "more"
    if found.differs:
        return "Denominators or windows differ, or are not stated, so the two are not of one thing."
    if found.verdict is ClaimVerdict.BORNE_OUT:
        return f"The count is {way} than the range that ordinary new units show."
    if found.verdict is ClaimVerdict.CONTRADICTED:
        other = "more" if way == "fewer" else "fewer"
        return f"The count is {other} than the range that ordinary new units show."
    if found.place is Verdict.NONE:
        return "No verdict can be given on this count."
    if found.place is not Verdict.WITHIN:
        return "What is not known of some cases could change the verdict."
    return f"The count is within the range, so {way} is not shown."


def limits_of(found: OwnPlaceFound) -> Limits | None:
    """Return the range of ordinary new units that a count is placed in."""
    if found.whole is not None:
        return found.whole.limits
    if found.standing is None or found.standing.comparison is None:
        return None
    return found.standing.comparison.limits


def _instead(found: OwnPlaceFound, plan: Plan) -> str:
    said, reach = own_said(found.tally, plan), limits_of(found)
    if reach is None:
        return f"{said}; it is not set against the literature."
    size = counted(found.tally.total, "case", "cases")
    mix = " and this case mix" if found.whole is not None else ""
    said = f"{said}; ordinary new units with {size}{mix} show {reach.low:,} to {reach.high:,}"
    if found.differs:
        return f"{said}, counted over other windows or denominators."
    if found.place is Verdict.WITHIN:
        return f"{said}, and we are not shown to differ from them."
    return f"{said}."
