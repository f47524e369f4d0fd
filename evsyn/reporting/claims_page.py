"""The sentences of a talk, weighed: as text and as JSON."""

from collections.abc import Iterator, Sequence

from evsyn.audit.unit_audit import unit_audit
from evsyn.claims.verdict import ClaimVerdict
from evsyn.claims.weigh import Weighed, weigh
from evsyn.extraction.guidelines import Guidelines
from evsyn.extraction.load import CheckedUnit
from evsyn.extraction.load_claims import CheckedClaims
from evsyn.extraction.review import Review
from evsyn.reporting.claims_json import weighed_json
from evsyn.reporting.json_text import json_text
from evsyn.reporting.plain_table import plain_table
from evsyn.reporting.pool_text import paragraph
from evsyn.terms import Audience
from evsyn.wording.audience import INSIDE_MARK, release_sentence
from evsyn.wording.claims import (
    CLOSING,
    ClaimWords,
    claim_words,
    searched_words,
    tally_sentence,
)
from evsyn.wording.claims_sources import sources_sentences
from evsyn.wording.numbers import counted
from evsyn.wording.status import INVENTED, status_line


def weigh_all(
    review: Review,
    checked: CheckedClaims,
    guidelines: Guidelines | None,
    unit: CheckedUnit | None,
    audience: Audience | None,
) -> tuple[Weighed, ...]:
    """Weigh every claim of a talk.

    Parameters
    ----------
    review : Review
        A review without faults.
    checked : CheckedClaims
        The claims.
    guidelines : Guidelines or None
        What is recorded of guidelines beside the review.
    unit : CheckedUnit or None
        The unit's figures, where they are given.
    audience : Audience or None
        For whom, where a unit is given; outside, claims about it are withheld unless its exact
        counts are released.
    """
    withhold = unit is not None and audience is Audience.OUTSIDE and unit.unit.full_release is None
    own = None if unit is None or withhold else unit_audit(review, unit.unit)
    return tuple(
        weigh(review, claim, guidelines, own, withhold=withhold) for claim in checked.claims.claims
    )


def claims_text(
    review: Review,
    checked: CheckedClaims,
    weighed: Sequence[Weighed],
    unit: CheckedUnit | None,
    audience: Audience | None,
) -> str:
    """Return the weighed claims as text: the tally, then each sentence with its verdict."""
    parts = [*map(paragraph, _marks(review, checked, unit, audience))]
    words = [claim_words(one, review) for one in weighed]
    parts += ["", paragraph(f"{checked.claims.title}. {tally_sentence(weighed)}"), ""]
    parts.append(_table(weighed, words))
    pools: dict[tuple[str, ...], int] = {}
    for number, (one, said) in enumerate(zip(weighed, words, strict=True), 1):
        seen = pools.setdefault(said.pool, number)
        parts += ["", *_claim_lines(number, one, said, seen, review)]
    parts += ["", paragraph(CLOSING)]
    if checked.findings and not any(one.found is None for one in weighed):
        parts += ["", f"{counted(len(checked.findings), 'remark', 'remarks')} on the sentences"]
        parts += [
            paragraph(f"{str(one.severity).capitalize()}, {one.source}: {one.message}. {one.cure}")
            for one in checked.findings
        ]
    return "\n".join(parts)


def claims_json(
    review: Review,
    checked: CheckedClaims,
    weighed: Sequence[Weighed],
    unit: CheckedUnit | None,
    audience: Audience | None,
) -> str:
    """Return the weighed claims as JSON; every number carries its sources."""
    hidden = any(one.found is None for one in weighed)
    fields = {
        "title": checked.claims.title,
        "invented": _is_invented(review, checked, unit),
        "for": None if audience is None else str(audience),
        "marks": list(_marks(review, checked, unit, audience)),
        "status": status_line(review),
        "searched": searched_words(review),
        "tally": tally_sentence(weighed),
        "claims": [weighed_json(one, claim_words(one, review)) for one in weighed],
        "closing": CLOSING,
        "findings": [] if hidden else [finding.to_dict() for finding in checked.findings],
    }
    return json_text(fields)


def _table(weighed: Sequence[Weighed], words: Sequence[ClaimWords]) -> str:
    rows = [
        (f"{number}", "" if one.found is None else one.claim.says, said.in_short)
        for number, (one, said) in enumerate(zip(weighed, words, strict=True), 1)
    ]
    return plain_table(("No.", "Sentence", "Verdict"), rows, right=(0,), whole=(0,))


def _claim_lines(
    number: int, one: Weighed, words: ClaimWords, seen: int, review: Review
) -> Iterator[str]:
    """Yield a claim: sentence, verdict, what to say instead, then what it rests on.

    A pool that an earlier sentence printed is not printed again.
    """
    if one.found is None:
        yield from (f"{number}.", paragraph(words.verdict))
        return
    title = f"{number}. {one.claim.claim}"
    yield from (title, "-" * len(title))
    yield paragraph(f'"{one.claim.says}"')
    yield paragraph(words.verdict)
    lead = "Say it so" if one.verdict is ClaimVerdict.BORNE_OUT else "Say instead"
    yield paragraph(f"{lead}: {words.instead}")
    yield ""
    yield from map(paragraph, words.sentences)
    if words.pool and seen < number:
        yield f"The pool is that of sentence {seen}."
    else:
        yield from map(paragraph, words.pool)
        yield from map(paragraph, sources_sentences(one, review.folder))


def _marks(
    review: Review,
    checked: CheckedClaims,
    unit: CheckedUnit | None,
    audience: Audience | None,
) -> Iterator[str]:
    if unit is not None and audience is Audience.INSIDE:
        yield INSIDE_MARK
    if unit is not None and audience is Audience.OUTSIDE and unit.unit.full_release is not None:
        yield release_sentence(unit.unit.full_release)
    yield status_line(review)
    if unit is not None:
        mark = f"{INVENTED}: " if unit.unit.invented else ""
        yield f"{mark}{unit.unit.label}."
    if checked.claims.invented and not review.invented:
        yield "The sentences are invented; the review they are weighed against is not."


def _is_invented(review: Review, checked: CheckedClaims, unit: CheckedUnit | None) -> bool:
    return review.invented or checked.claims.invented or (unit is not None and unit.unit.invented)
