"""Which cases the series tell apart, and how they were found, on the pocket card."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from evsyn.extraction.review import Review
from evsyn.wording.numbers import count, counted
from evsyn.wording.pocket import Prompt
from evsyn.wording.status import status_parts

#: No more facts than this are named in a question.
_MOST_NAMED = 5


@dataclass(frozen=True, slots=True)
class Reported:
    """How many series report a fact that the plan declares of arms.

    Parameters
    ----------
    label : str
        The fact.
    series : int
        How many series report it.
    by_level : mapping of str to int
        Of a choice, how many series have an arm at each level, by its words.
    least, most : str
        Of a number, the smallest and the largest as written; empty otherwise.
    """

    label: str
    series: int
    by_level: Mapping[str, int]
    least: str = ""
    most: str = ""


def cases_prompt(found: Sequence[Reported], k: int, event: str) -> Prompt:
    """Say what the series tell of their cases beside the plan's strata.

    Parameters
    ----------
    found : sequence of Reported
        Every fact that the plan declares of arms.
    k : int
        Series with a count of the outcome.
    event : str
        The outcome inside a sentence.
    """
    never = '"In such cases it is the same", or "is worse": no count here is pooled by them.'
    if not found:
        none = "The plan of this review collects no such fact: say so."
        return Prompt("What of special cases?", (none,), never)
    named = ", ".join(_lower(item.label) for item in found[:_MOST_NAMED])
    more = f" and {len(found) - _MOST_NAMED} more" if len(found) > _MOST_NAMED else ""
    told = "; ".join(f"{_lower(item.label)} {count(item.series, k)}" for item in found)
    first = (
        f"Series with a count of {event} that report it: {told}. What is not named here was not "
        "collected."
    )
    details = (_detail(item) for item in found)
    said = (first, *(sentence for sentence in details if sentence))
    return Prompt(f"What of special cases: {named}{more}?", said, never)


def _detail(item: Reported) -> str:
    told = ", ".join(f"{words} {number}" for words, number in item.by_level.items() if number)
    if told:
        return f"{item.label}: {told}."
    if not item.least:
        return ""
    return f"{item.label}: from {item.least} to {item.most}."


def search_prompt(review: Review) -> Prompt:
    """Say how the papers were found, and how much of them was read."""
    parts = status_parts(review)
    read = "; ".join(parts[2:])
    note = review.plan.search_note or ""
    search = review.plan.search
    if isinstance(search, list) and search:
        first = "; ".join(
            f"{item.name} on {item.on}"
            + ("" if item.records is None else f" ({counted(item.records, 'record', 'records')})")
            for item in search
        )
        sources = counted(len(search), "source", "sources")
        said = f"{sources}: {first}."
        never = '"Nothing was missed": no search finds all, and what is unpublished is in none.'
    else:
        said = "No search was made: these are chosen papers."
        never = '"A systematic review", or "the literature as a whole": papers were chosen.'
    return Prompt(
        "What was the search?",
        tuple(s for s in (said, f"{read[:1].upper()}{read[1:]}.", note) if s),
        never,
        needed=2,
    )


def _lower(label: str) -> str:
    return f"{label[:1].lower()}{label[1:]}"
