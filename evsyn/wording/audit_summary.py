"""An audit in a few lines, before its details."""

from collections.abc import Sequence

from evsyn.audit.standardised import Standardisation
from evsyn.audit.standing import Standing
from evsyn.audit.verdict import Verdict
from evsyn.extraction.plan import Plan
from evsyn.terms import OVERALL
from evsyn.wording.audit import group_words
from evsyn.wording.chances import range_words
from evsyn.wording.numbers import count, counted
from evsyn.wording.verdict import VERDICT_WORDS

FOLLOWS = "A table follows, then the details of each count."


def summary_sentences(
    placed: Sequence[Standing],
    plan: Plan,
    names: int | None = None,
    wholes: Sequence[Standardisation] = (),
) -> tuple[str, ...]:
    """Sum up where a unit stands.

    Parameters
    ----------
    placed : sequence of Standing
        Every count of the unit.
    plan : Plan
        The plan, for its words.
    names : int, optional
        How many counts to name a sentence; all by default.
    wholes : sequence of Standardisation
        The wholes against the unit's own case mix.

    Returns
    -------
    tuple of str
        How many counts were compared; the primary indicator; which lie outside the range and
        which way; which saw no event; that the details follow.
    """
    held = {whole.outcome for whole in wholes if whole.found is not None}
    told = {id(s): verdict_of(s, wholes) for s in placed}
    compared = [s for s in placed if s.comparison is not None or _is_held(s, held)]
    given = [s for s in compared if told[id(s)] is not Verdict.NONE]
    outside = sum(told[id(s)] is not Verdict.WITHIN for s in given)
    first = f"{counted(len(placed), 'count', 'counts')}, {len(compared) or 'none'} compared"
    if compared:
        first += f", {len(given) or 'none'} with a verdict"
    if given:
        first += f"; {outside or 'none'} outside the range"
    said = [f"{first}.", primary_sentence(placed, plan, wholes)]
    for way in (Verdict.MORE, Verdict.FEWER):
        found = [s for s in given if told[id(s)] is way]
        if found:
            said.append(f"{_first(VERDICT_WORDS[way])}: {_named(found, plan, names)}.")
    empty = [s for s in placed if s.events == 0]
    if empty:
        said.append(f"No event: {_named(empty, plan, names)}.")
    return (*said, FOLLOWS)


def verdict_of(standing: Standing, wholes: Sequence[Standardisation]) -> Verdict:
    """Return the verdict on a count; on a whole, the one by the unit's own case mix."""
    if standing.stratum != OVERALL:
        return standing.verdict
    found = next((whole.found for whole in wholes if whole.outcome == standing.outcome), None)
    return Verdict.NONE if found is None else found.verdict


def _is_held(standing: Standing, held: set[str]) -> bool:
    return standing.stratum == OVERALL and standing.outcome in held


def primary_sentence(
    placed: Sequence[Standing], plan: Plan, wholes: Sequence[Standardisation] = ()
) -> str:
    """Say where the one indicator stands that the plan names before all others."""
    named = plan.audit.primary
    if named is None:
        return "The plan names no primary indicator, so no one count stands before the others."
    found = [s for s in placed if s.is_primary]
    if not found:
        return "The unit does not report the primary indicator that the plan names."
    told = "; ".join(
        f"{plan.outcomes[s.outcome].label}, {group_words(s, plan)} "
        f"({count(s.events, s.total)}), {_placed(s, wholes)}"
        for s in found
    )
    return f"Primary indicator, named in the plan: {told}."


def _placed(standing: Standing, wholes: Sequence[Standardisation]) -> str:
    """Give the verdict with the range it is of."""
    said = VERDICT_WORDS[verdict_of(standing, wholes)]
    reach = None if standing.comparison is None else standing.comparison.limits
    if standing.stratum == OVERALL:
        found = next((w.found for w in wholes if w.outcome == standing.outcome), None)
        reach = None if found is None else found.limits
    if reach is None:
        return said
    return f"{said} of {range_words(reach)} that ordinary new units show"


def _named(found: Sequence[Standing], plan: Plan, names: int | None) -> str:
    shown = found if names is None else found[:names]
    told = [
        f"{plan.outcomes[s.outcome].label}, {group_words(s, plan)} ({count(s.events, s.total)})"
        for s in shown
    ]
    rest = len(found) - len(shown)
    if rest:
        others = counted(rest, "other", "others") if told else counted(rest, "count", "counts")
        told.append(others)
    return "; ".join(told)


def _first(words: str) -> str:
    return f"{words[:1].upper()}{words[1:]}"
