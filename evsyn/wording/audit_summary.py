"""An audit in a few lines, before its details."""

from collections.abc import Sequence

from evsyn.audit.standing import Standing
from evsyn.audit.verdict import Verdict
from evsyn.extraction.plan import Plan
from evsyn.wording.audit import group_words
from evsyn.wording.numbers import count, counted
from evsyn.wording.verdict import VERDICT_WORDS

FOLLOWS = "A table follows, then the details of each count."


def summary_sentences(
    placed: Sequence[Standing], plan: Plan, names: int | None = None
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

    Returns
    -------
    tuple of str
        How many counts were compared; the primary indicator; which lie outside the range and
        which way; which saw no event; that the details follow.
    """
    compared = [s for s in placed if s.comparison is not None]
    given = [s for s in compared if s.verdict is not Verdict.NONE]
    outside = sum(s.verdict is not Verdict.WITHIN for s in given)
    first = f"{counted(len(placed), 'count', 'counts')}, {len(compared) or 'none'} compared"
    if compared:
        first += f", {len(given) or 'none'} with a verdict"
    if given:
        first += f"; {outside or 'none'} outside the range"
    said = [f"{first}.", primary_sentence(placed, plan)]
    for way in (Verdict.MORE, Verdict.FEWER):
        found = [s for s in given if s.verdict is way]
        if found:
            said.append(f"{_first(VERDICT_WORDS[way])}: {_named(found, plan, names)}.")
    empty = [s for s in placed if s.events == 0]
    if empty:
        said.append(f"No event: {_named(empty, plan, names)}.")
    return (*said, FOLLOWS)


def primary_sentence(placed: Sequence[Standing], plan: Plan) -> str:
    """Say where the one indicator stands that the plan names before all others."""
    named = plan.audit.primary
    if named is None:
        return "The plan names no primary indicator, so no one count stands before the others."
    found = [s for s in placed if s.is_primary]
    if not found:
        return "The unit does not report the primary indicator that the plan names."
    told = "; ".join(
        f"{plan.outcomes[s.outcome].label}, {group_words(s, plan)} "
        f"({count(s.events, s.total)}), {VERDICT_WORDS[s.verdict]}"
        for s in found
    )
    return f"Primary indicator, named in the plan: {told}."


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
