"""What a guideline is said to state: its edition, whether it was read, and its numbers."""

import re
from dataclasses import dataclass
from enum import StrEnum

from evsyn.claims.verdict import ClaimVerdict
from evsyn.extraction.claims import Asserts, Claim
from evsyn.extraction.guidelines import Guidelines, GuidelineStatement, ReadAs, Status


class Ground(StrEnum):
    """Why a claim about a guideline is judged as it is."""

    NOT_RECORDED = "no_guidelines_recorded"
    NO_PASS_MARK = "no_guideline_read_sets_a_pass_mark"
    NO_SUCH_NUMBER = "no_recorded_statement_sets_a_number"
    SUPERSEDED = "superseded"
    OTHER_EDITION = "other_edition"
    FROM_MEMORY = "from_memory"
    SECOND_HAND = "read_second_hand"
    STATUS_UNKNOWN = "status_unknown"
    NO_NUMBER = "statement_gives_no_number"
    OTHER_NUMBER = "number_differs"
    OTHER_UNIT = "number_in_another_unit"
    NO_STRENGTH = "strength_not_recorded"
    STRENGTH_FROM_MEMORY = "strength_from_memory"
    OTHER_STRENGTH = "strength_differs"
    READ = "recorded_and_read"


@dataclass(frozen=True, slots=True)
class GuidelineFound:
    """What was found of a claim about a guideline.

    Parameters
    ----------
    verdict : ClaimVerdict
        Never better than ``BEYOND`` for a statement from memory or read second hand.
    grounds : tuple of Ground
        Why, the decisive one first.
    statement : GuidelineStatement or None
        The statement it points at.
    others : tuple of GuidelineStatement
        Of a statement no longer in force: what replaced it, and what else the same body says on
        the same topic in an edition in force.
    recorded, read : int
        Statements recorded, and those that were read.
    """

    verdict: ClaimVerdict
    grounds: tuple[Ground, ...]
    statement: GuidelineStatement | None = None
    others: tuple[GuidelineStatement, ...] = ()
    recorded: int = 0
    read: int = 0


_OPEN = (
    Ground.FROM_MEMORY,
    Ground.SECOND_HAND,
    Ground.STATUS_UNKNOWN,
    Ground.OTHER_UNIT,
    Ground.STRENGTH_FROM_MEMORY,
)
_NOTHING = (Ground.NOT_RECORDED, Ground.NO_SUCH_NUMBER, Ground.NO_NUMBER, Ground.NO_STRENGTH)


def weigh_guideline(claim: Claim, guidelines: Guidelines | None) -> GuidelineFound:
    """Weigh what a guideline is said to state.

    A superseded statement contradicts a claim, unless the claim names the edition it was true of.
    Whether the sentence says the same as the recorded statement is left to its reader: both are
    printed together.

    Parameters
    ----------
    claim : Claim
        A claim about a guideline.
    guidelines : Guidelines or None
        What is recorded beside the review.
    """
    if guidelines is None:
        return GuidelineFound(ClaimVerdict.NOTHING_HELD, (Ground.NOT_RECORDED,))
    statements = guidelines.statements
    recorded, read = len(statements), sum(not one.from_memory for one in statements)
    one = None if claim.statement is None else guidelines.statement(claim.statement)
    if claim.asserts is Asserts.PASS_MARK or one is None:
        ground = Ground.NO_SUCH_NUMBER
        if claim.outcome in guidelines.no_pass_mark:
            ground = Ground.NO_PASS_MARK
        return GuidelineFound(_verdict((ground,)), (ground,), one, (), recorded, read)
    grounds = (*_edition(claim, one), *_content(claim, one), *_reading(one)) or (Ground.READ,)
    return GuidelineFound(
        _verdict(grounds), grounds, one, _in_force(one, guidelines), recorded, read
    )


def _in_force(one: GuidelineStatement, guidelines: Guidelines) -> tuple[GuidelineStatement, ...]:
    if one.status is not Status.SUPERSEDED:
        return ()
    named = [other for other in guidelines.statements if other.id == one.superseded_by]
    alike = [
        other
        for other in guidelines.statements
        if (other.body, other.topic) == (one.body, one.topic)
        and other.status is Status.CURRENT
        and other not in named
    ]
    return (*named, *alike)


def _verdict(grounds: tuple[Ground, ...]) -> ClaimVerdict:
    """Return the verdict of the gravest ground."""
    if grounds == (Ground.READ,):
        return ClaimVerdict.BORNE_OUT
    against = {Ground.SUPERSEDED, Ground.OTHER_EDITION, Ground.NO_PASS_MARK}
    if against & set(grounds):
        return ClaimVerdict.CONTRADICTED
    if set(grounds) & set(_NOTHING):
        return ClaimVerdict.NOTHING_HELD
    # What is only remembered can neither bear a sentence out nor contradict it.
    if set(grounds) & set(_OPEN):
        return ClaimVerdict.BEYOND
    return ClaimVerdict.CONTRADICTED


def _edition(claim: Claim, one: GuidelineStatement) -> tuple[Ground, ...]:
    if claim.edition is not None and claim.edition != one.year:
        return (Ground.OTHER_EDITION,)
    names_it = claim.edition is not None and claim.asserts is not Asserts.CURRENT
    if one.status is Status.SUPERSEDED and not names_it:
        return (Ground.SUPERSEDED,)
    return (Ground.STATUS_UNKNOWN,) if one.status is Status.UNKNOWN else ()


def _reading(one: GuidelineStatement) -> tuple[Ground, ...]:
    if one.from_memory:
        return (Ground.FROM_MEMORY,)
    return (Ground.SECOND_HAND,) if one.read is ReadAs.SECOND_HAND else ()


def _content(claim: Claim, one: GuidelineStatement) -> tuple[Ground, ...]:
    said = claim.value or ""
    if claim.asserts is Asserts.STRENGTH:
        if one.strength is None:
            return (Ground.NO_STRENGTH,)
        if one.strength_from_memory:
            return (Ground.STRENGTH_FROM_MEMORY,)
        is_said = _grades(said) <= _grades(one.strength)
        return () if is_said else (Ground.OTHER_STRENGTH,)
    if claim.asserts is not Asserts.NUMBER:
        return ()
    if not one.values:
        return (Ground.NO_NUMBER,)
    if any(_plain(said) == _plain(value) for value in one.values):
        return ()
    is_same_unit = any(_plain(said)[1] == _plain(value)[1] for value in one.values)
    return (Ground.OTHER_NUMBER,) if is_same_unit else (Ground.OTHER_UNIT,)


def _grades(text: str) -> set[str]:
    """Return the grading words of a text, as ``strong`` and ``low``."""
    filling = {"a", "of", "recommendation", "evidence", "certainty", "quality"}
    return set(re.findall(r"\w+", text.casefold())) - filling


def _plain(text: str) -> tuple[tuple[str, ...], str]:
    """Return the numbers of a text and the words around them."""
    numbers = tuple(re.findall(r"[0-9]+(?:\.[0-9]+)?", text))
    words = re.sub(r"[0-9.,–-]+|\bto\b", " ", text.casefold()).split()
    return numbers, " ".join(words)
