"""What is said of a claim once it is weighed: verdict, reasons, and what to say instead."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

from evsyn.claims.bound import BoundFound
from evsyn.claims.counted import CountFound
from evsyn.claims.equals import EqualsFound
from evsyn.claims.evidence import LackFound
from evsyn.claims.guideline import GuidelineFound
from evsyn.claims.levels import LevelsFound
from evsyn.claims.unit_counts import OwnLackFound
from evsyn.claims.unit_levels import OwnLevelsFound
from evsyn.claims.unit_place import OwnPlaceFound
from evsyn.claims.unit_rate import OwnRateFound
from evsyn.claims.verdict import ClaimVerdict
from evsyn.claims.weigh import Weighed
from evsyn.extraction.claims import About, Claim
from evsyn.extraction.review import Review
from evsyn.wording.claims_bound import bound_words
from evsyn.wording.claims_counted import counted_words
from evsyn.wording.claims_equals import equals_words
from evsyn.wording.claims_guideline import guideline_words
from evsyn.wording.claims_held import lack_words
from evsyn.wording.claims_levels import levels_words
from evsyn.wording.claims_overreach import beyond_statement_sentences, overreach_sentences
from evsyn.wording.claims_said import Said
from evsyn.wording.claims_unit import own_lack_words, own_levels_words, own_rate_words
from evsyn.wording.claims_unit_place import own_place_words
from evsyn.wording.numbers import counted

VERDICT_WORDS = {
    ClaimVerdict.BORNE_OUT: "borne out",
    ClaimVerdict.CONTRADICTED: "contradicted",
    ClaimVerdict.BEYOND: "more than the data can say",
    ClaimVerdict.NOTHING_HELD: "nothing held",
}

WITHHELD = "withheld outside"
WITHHELD_SENTENCE = (
    "A sentence about the unit: withheld outside. It would tell or narrow a count of the unit, "
    "and the unit file holds no 'release'."
)

CLOSING = (
    "A verdict here is about numbers in one review. Borne out means that these papers, as they "
    "were found and read, say so; it does not mean that it is true elsewhere. Whoever speaks "
    "answers for the sentence."
)


@dataclass(frozen=True, slots=True)
class ClaimWords:
    """A weighed claim in words.

    Parameters
    ----------
    verdict : str
        The verdict in a sentence.
    in_short : str
        The verdict in a few words, for a table.
    sentences : tuple of str
        What it rests on.
    pool : tuple of str
        The pool behind it, which several claims may share.
    instead : str
        What can be said honestly; empty where it is withheld.
    """

    verdict: str
    in_short: str
    sentences: tuple[str, ...]
    pool: tuple[str, ...]
    instead: str


def claim_words(weighed: Weighed, review: Review) -> ClaimWords:
    """Put a weighed claim into words.

    Parameters
    ----------
    weighed : Weighed
        The claim and what was found.
    review : Review
        The review, for its words.
    """
    verdict = weighed.verdict
    if weighed.found is None or verdict is None:
        return ClaimWords(WITHHELD_SENTENCE, WITHHELD, (), (), "")
    said = _said(weighed.claim, weighed.found, review)
    is_guideline = weighed.claim.about is About.GUIDELINE
    is_told = verdict is weighed.found.verdict
    words = VERDICT_WORDS[verdict]
    scope = f", {said.scope}" if said.scope and is_told else ""
    where = searched_words(review)
    if is_guideline:
        where = f"by the guidelines recorded {where}"
    line = f"{words[0].upper()}{words[1:]}{scope}, {where}."
    refused = beyond_statement_sentences if is_guideline else overreach_sentences
    reasons = refused(weighed.overreach)
    numbers = said.sentences
    if weighed.overreach and not is_told and not is_guideline:
        numbers = (f"The number alone would be borne out. {numbers[0]}", *numbers[1:])
    return ClaimWords(line, f"{words}{scope}", (*reasons, *numbers), said.pool, said.instead)


def searched_words(review: Review) -> str:
    """Say what a verdict is limited to: this review, and whether its papers were searched for."""
    search = review.plan.search
    if isinstance(search, list) and search:
        return "in this review, as searched"
    return "in this review, as searched (no search: chosen papers)"


def tally_sentence(weighed: Sequence[Weighed]) -> str:
    """Count the verdicts, as ``6 sentences: 2 borne out, 4 contradicted.``"""
    found = Counter(one.verdict for one in weighed)
    told = [f"{found[verdict]} {words}" for verdict, words in VERDICT_WORDS.items()]
    told += [f"{found[None]} {WITHHELD}"] if found[None] else []
    return f"{counted(len(weighed), 'sentence', 'sentences')}: {', '.join(told)}."


def _said(claim: Claim, found: object, review: Review) -> Said:
    match found:
        case LackFound():
            return lack_words(claim, found, review)
        case EqualsFound():
            return equals_words(claim, found, review)
        case BoundFound():
            return bound_words(claim, found, review)
        case CountFound():
            return counted_words(claim, found, review)
        case LevelsFound():
            return levels_words(claim, found, review)
        case OwnRateFound():
            return own_rate_words(claim, found, review.plan)
        case OwnPlaceFound():
            return own_place_words(claim, found, review.plan)
        case OwnLevelsFound():
            return own_levels_words(claim, found, review.plan)
        case OwnLackFound():
            return own_lack_words(claim, found, review.plan)
        case GuidelineFound():
            words = None if claim.outcome is None else review.plan.outcomes[claim.outcome]
            return guideline_words(claim, found, "" if words is None else words.event)
        case _:
            raise TypeError(f"no words for {type(found).__name__}")
