"""'None', 'all', 'most' and 'at least so many' series, in words."""

from collections.abc import Sequence

from evsyn.claims.counted import LEAST_SERIES, CountFound
from evsyn.claims.series import OneSeries
from evsyn.claims.verdict import ClaimVerdict
from evsyn.extraction.claims import Claim, Relation
from evsyn.extraction.review import Review
from evsyn.pooling.answer import Show
from evsyn.wording.claims_bound import reach_words, series_sentence
from evsyn.wording.claims_held import MOST_NAMED, pool_sentences, rate_now, series_words, subject
from evsyn.wording.claims_said import Said
from evsyn.wording.numbers import percent


def counted_words(claim: Claim, found: CountFound, review: Review) -> Said:
    """Say of how many series it is true, and name the exceptions."""
    if found.value is None:
        sentences = [_plain(found)]
    else:
        sentences = [f"{series_sentence(found.series, reach_words(claim))} {_tail(found)}"]
    sentences += [*_too_little(found, review), *_exceptions(found)]
    pool = pool_sentences(claim, found.held, review)
    return Said(tuple(sentences), _instead(claim, found, review), pool, _scope(found))


def _scope(found: CountFound) -> str:
    return "as a count of series" if found.verdict is ClaimVerdict.BORNE_OUT else ""


def _tail(found: CountFound) -> str:
    """Say what that number of series means for the claim."""
    series = found.series
    match found.relation:
        case Relation.NONE | Relation.ALL:
            rows = series.inside if found.relation is Relation.NONE else series.outside
            return "One exception is enough to contradict it." if rows else "There is no exception."
        case Relation.MOST:
            is_most = 2 * series.by_rate > series.k
            return f"That is {'' if is_most else 'not '}more than half."
    wrong = (
        "" if found.of in (None, series.k) else f", of {found.of} series, and there are {series.k}"
    )
    return f"Claimed are {found.wanted}{wrong}."


def _plain(found: CountFound) -> str:
    """Say it of 'none saw one' and of 'it happened in every case'."""
    series, limit = found.series, found.held.pooled.answer.one_sided
    total = f"{sum(found.held.pooled.answer.total):,}"
    if found.relation is Relation.NONE:
        if series.inside:
            return f"{series.by_rate} of {series.k} series saw at least one."
        seen, way = f"none in {total}", "up"
    else:
        if series.outside:
            return f"It did not happen in every case of {len(series.outside)} of {series.k} series."
        seen, way = f"all of {total}", "down"
    said = f"As a count it is borne out: {seen}"
    if limit is None:
        return f"{said}."
    return (
        f"{said}. As a rate it is more than the data can say: rates {way} to {percent(limit)} "
        "remain possible (one-sided 95%), if all series share one."
    )


def _too_little(found: CountFound, review: Review) -> list[str]:
    if found.verdict is not ClaimVerdict.BEYOND or found.value is None:
        return []
    if found.held.pooled.answer.show is Show.REFUSED:
        reason = review.plan.outcomes[found.held.table.question.outcome].do_not_pool or ""
        return [f"The plan does not set these shares beside each other: {reason.rstrip('.')}."]
    if found.series.k < LEAST_SERIES:
        return [f"Of {found.series.k} series nobody says 'most', 'all' or 'none'."]
    return []


def _exceptions(found: CountFound) -> list[str]:
    if found.relation is Relation.NONE:
        return _named("Exceptions", found.series.inside)
    if found.relation is Relation.ALL:
        return _named("Exceptions", found.series.outside)
    return []


def _named(title: str, rows: Sequence[OneSeries]) -> list[str]:
    if not rows:
        return []
    told = "; ".join(series_words(row) for row in rows[:MOST_NAMED])
    more = len(rows) - MOST_NAMED
    return [f"{title}: {told}{f'; and {more} more' if more > 0 else ''}."]


def _instead(claim: Claim, found: CountFound, review: Review) -> str:
    if found.value is None or found.held.pooled.answer.show is Show.REFUSED:
        return rate_now(claim, found.held, review)
    series, what = found.series, reach_words(claim)
    if found.relation is Relation.NONE and not series.inside:
        reaching = series.k - series.against
        return (
            f"{subject(claim, found.held, review)}: none of {series.k} series reports a rate "
            f"{what}; the exact interval reaches there in {reaching or 'none'} of them."
        )
    return (
        f"{subject(claim, found.held, review)}: {series.by_rate} of {series.k} series report a "
        f"rate {what}, and in {series.by_interval or 'none'} of them the whole exact interval lies "
        "there."
    )
