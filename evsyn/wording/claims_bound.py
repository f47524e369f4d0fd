"""'Below 5%', 'above 90%', 'between 2 and 8%', in words."""

from evsyn.claims.bound import BoundFound
from evsyn.claims.ordinary_units import UnitShare
from evsyn.claims.series import SeriesCount
from evsyn.claims.verdict import ClaimVerdict
from evsyn.extraction.claims import Claim, Relation
from evsyn.extraction.review import Review
from evsyn.pooling.answer import Show
from evsyn.wording.claims_held import pool_sentences, rate_now
from evsyn.wording.claims_said import Said
from evsyn.wording.numbers import percent, span, spread

_LIES = {
    ClaimVerdict.BORNE_OUT: "wholly",
    ClaimVerdict.CONTRADICTED: "nowhere",
    ClaimVerdict.BEYOND: "only partly",
}


def bound_words(claim: Claim, found: BoundFound, review: Review) -> Said:
    """Say how the interval of the typical rate, the series and ordinary new units lie."""
    what = reach_words(claim)
    sentences = [_verdict(found, what)]
    if found.held.pooled.answer.show not in (Show.ONE, Show.TWO, Show.REFUSED):
        sentences.append(series_sentence(found.series, what))
    sentences += units_sentences(found.units, what)
    pool = pool_sentences(claim, found.held, review)
    return Said(tuple(sentences), _instead(claim, found, review, what), pool, _scope(found))


def reach_words(claim: Claim) -> str:
    """Say what is claimed of a rate, as ``below 5%``."""
    if claim.relation in (Relation.BELOW, Relation.ABOVE):
        return f"{claim.relation} {claim.value}"
    value = claim.value or ""
    return value if value[:1].isalpha() else f"within {value}"


def _scope(found: BoundFound) -> str:
    if found.verdict is not ClaimVerdict.BORNE_OUT:
        return ""
    if found.ordinary is ClaimVerdict.BORNE_OUT:
        return "for the typical rate and for the range of ordinary new settings"
    return "for the typical rate only"


def _verdict(found: BoundFound, what: str) -> str:
    reading = found.held.pooled.answer.reading
    if reading is None:
        return f"There is no pool to read, so whether the typical rate is {what} cannot be told."
    row = reading.pooled
    limits = span(row.low, row.high)
    if found.verdict is ClaimVerdict.BORNE_OUT:
        said = f"The interval of the typical rate, {limits}, lies wholly {what}"
    elif found.verdict is ClaimVerdict.CONTRADICTED:
        said = f"The interval of the typical rate, {limits}, lies nowhere {what}"
    else:
        said = f"The interval of the typical rate, {limits}, lies only partly {what}"
    if found.ordinary is None:
        return f"{said}."
    wide = span(row.prediction_low, row.prediction_high)
    how = _LIES[found.ordinary]
    return f"{said}; the range for an ordinary new setting, {wide}, lies {how} {what}."


def _instead(claim: Claim, found: BoundFound, review: Review, what: str) -> str:
    now = rate_now(claim, found.held, review)
    if found.held.pooled.answer.reading is None:
        return now
    if found.verdict is ClaimVerdict.BORNE_OUT:
        return f"{now} The typical rate is {what}; that of any one hospital need not be."
    if found.verdict is ClaimVerdict.CONTRADICTED:
        return f"{now} The typical rate is not {what}."
    return f"{now} Whether the typical rate is {what}, these series leave open."


def series_sentence(series: SeriesCount, what: str) -> str:
    """Say of how many series it is true, by their rates and by their whole intervals."""
    edge = f" ({series.at_edge} of them at that very number)" if series.at_edge else ""
    partly = series.k - series.by_interval - series.against
    return (
        f"Of {series.k} series {series.by_rate} report a rate {what} and {len(series.outside)} do "
        f"not{edge}; by their exact intervals {series.by_interval} lie wholly {what}, {partly} "
        f"partly and {series.against} not at all."
    )


def units_sentences(units: UnitShare | None, what: str) -> list[str]:
    """Say what share of ordinary new units it is true of, and how that moves with the spread."""
    if units is None:
        return []
    said = f"Of ordinary new units {percent(units.share)} would have a true rate {what}"
    ends = [at for at in (units.at_low, units.at_high) if at is not None]
    if len(ends) == 2:
        said += (
            f" ({percent(ends[0].share)} at the smallest spread that the series allow, "
            f"{spread(ends[0].tau)}, and {percent(ends[1].share)} at the largest, "
            f"{spread(ends[1].tau)})"
        )
    if not units.is_reliable:
        said += "; unreliable, since fewer than five series cannot tell how far units differ"
    return [f"{said}."]
