"""'Ours is lower than the literature', in words: the place among ordinary new units."""

from evsyn.audit.standing import Standing
from evsyn.audit.verdict import Verdict
from evsyn.claims.unit_place import OwnPlaceFound
from evsyn.claims.verdict import ClaimVerdict
from evsyn.extraction.claims import Claim, Relation
from evsyn.extraction.plan import Plan
from evsyn.wording.audit_caveats import caveat_sentences, reason_sentences
from evsyn.wording.audit_verdict import verdict_sentence
from evsyn.wording.claims_said import Said
from evsyn.wording.claims_unit import own_said
from evsyn.wording.numbers import counted

NOT_BY_OVERLAP = (
    "A unit is weighed by its place among ordinary new units of its size, never by whether its "
    "interval overlaps that of the pool."
)


def own_place_words(claim: Claim, found: OwnPlaceFound, plan: Plan) -> Said:
    """Say where the unit's count lies, what differs, and what so few cases could have shown."""
    standing = found.standing
    sentences = [_verdict(found)]
    if standing is not None and standing.comparison is not None:
        sentences.append(verdict_sentence(standing, standing.comparison))
        sentences += caveat_sentences(standing, plan)
    elif standing is not None:
        sentences += reason_sentences(standing, plan)
    return Said((*sentences, NOT_BY_OVERLAP), _instead(found, plan))


def _verdict(found: OwnPlaceFound) -> str:
    standing = found.standing
    if standing is None:
        return "Strata are audited one by one, so a crossing of them has no place among units."
    if standing.comparison is None:
        return "The unit's count is not set against the review."
    way = "fewer" if found.relation is Relation.LOWER_THAN else "more"
    if standing.differs:
        return "Denominators or windows differ, or are not stated, so the two are not of one thing."
    if found.verdict is ClaimVerdict.BORNE_OUT:
        return f"The count is {way} than the range that ordinary new units show."
    if found.verdict is ClaimVerdict.CONTRADICTED:
        other = "more" if way == "fewer" else "fewer"
        return f"The count is {other} than the range that ordinary new units show."
    if standing.verdict is Verdict.NONE:
        return "No verdict can be given on this count."
    if standing.verdict is not Verdict.WITHIN:
        return "What is not known of some cases could change the verdict."
    return f"The count is within the range, so {way} is not shown."


def _instead(found: OwnPlaceFound, plan: Plan) -> str:
    said = own_said(found.tally, plan)
    standing = found.standing
    if standing is None or standing.comparison is None:
        return f"{said}; it is not set against the literature."
    return f"{said}; {_range(standing)}."


def _range(standing: Standing) -> str:
    reach = standing.comparison.limits if standing.comparison is not None else None
    if reach is None:
        return ""
    size = counted(standing.total, "case", "cases")
    said = f"ordinary new units with {size} show {reach.low:,} to {reach.high:,}"
    if standing.differs:
        return f"{said}, counted over other windows or denominators"
    if standing.verdict is Verdict.WITHIN:
        return f"{said}, and we are not shown to differ from them"
    return said
