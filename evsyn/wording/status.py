"""The status line: what a reader must know of a review first; computed, never typed."""

from evsyn.extraction.review import Review
from evsyn.terms import TextRead

INVENTED = "INVENTED DATA"


def status_line(review: Review) -> str:
    """Return the status line of a review.

    Parameters
    ----------
    review : Review
        A review without faults.
    """
    return "; ".join(status_parts(review)) + "."


def status_parts(review: Review) -> tuple[str, ...]:
    """Return the parts of the status line, in order."""
    studies = review.studies
    k = len(studies)
    partly = sum(study.extracted.from_ is not TextRead.FULL_TEXT for study in studies)
    second = sum(study.extracted.checked_by is not None for study in studies)
    kind = INVENTED if review.invented else "Published counts"
    return (
        f"{kind}: {review.plan.title}",
        f"search: {_search(review)}",
        f"read from abstract or second hand: {partly} of {k}",
        f"second reader: {second} of {k}",
        f"open doubts: {len(review.open_doubts)}",
        f"plan fixed {review.plan.fixed_on}, {_when_fixed(review)}",
    )


def _search(review: Review) -> str:
    search = review.plan.search
    if not isinstance(search, list):
        return "none: chosen papers"
    days = sorted(source.on for source in search)
    number = f"{len(days)} source{'s' if len(days) > 1 else ''}"
    return f"{number}, last on {days[-1]}" if days else "none: chosen papers"


def _when_fixed(review: Review) -> str:
    days = sorted(study.extracted.on for study in review.studies)
    fixed = review.plan.fixed_on
    if not days:
        return "no extract yet"
    if fixed < days[0]:
        return "before the first extract"
    if fixed == days[0]:
        return "the day of the first extract"
    return "after the first extract"
