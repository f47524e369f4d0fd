"""What ``evsyn add`` says on the way of a paper into a review."""

from evsyn.wording.numbers import counted

#: Said before the first question.
BEFORE = (
    "From the reference of a paper to its place in the pool, one question at a time.",
    "What stands in brackets is taken when you press Enter. Type 'back' to go to the question",
    "before, and 'later' to stop: your answers are kept. Nothing is written into the review",
    "before you say so at the end.",
)
BEFORE_PLAN = (
    "One question at a time; what stands in brackets is taken when you press Enter. Type 'back'",
    "to go to the question before, and 'later' to stop: your answers are kept. The plan is",
    "written after the last answer.",
)
PASTE = (
    "Paste the record of the paper (RIS, PubMed or BibTeX), then a line with a full stop alone.",
    "Or only that line, to type the citation; or only 'later', to stop.",
)
#: The line that ends what is pasted.
END = "."
PASTE_AGAIN = "Paste it again, or type a full stop alone to type the citation."
#: What the pasted text is kept under.
REFERENCE = "reference"
ONE_RECORD = "{number} records stand in it. Give the one of this paper."
CITED = "Cited as: {citation}"
IN_ALREADY = (
    "This paper is in the review already: {study} ({reason}). Nothing was written. A further "
    "report of the same patients belongs under 'reports' of that study."
)
WHY_STANDS = "Why does it stand? (Enter leaves it open)"
NOTHING_KEPT = "Nothing was written, and no answer was there to keep."
WRITE = "Write it into the review?"
DOUBTS = "The checks find something to look at:"
NO_DOUBT = "The checks find no fault and no doubt in it."
NOT_POOLED = "Nothing is pooled while a fault stands in the review. Mend it, then see evsyn pool."


NO_REVIEW = "{folder} holds no review: there is no review.yaml in it. Begin one with: {command}"


def taken_up(number: int, kept: int) -> str:
    """Say how many of the kept answers were given again so far."""
    if number == kept:
        return f"Taken up again: {counted(number, 'kept answer', 'kept answers')}."
    return (
        f"Taken up again: {number} of {counted(kept, 'kept answer', 'kept answers')}. The others "
        "are given where their question comes."
    )


def put_away(place: str) -> str:
    """Say where the answers of a paper that was let go are now."""
    return f"The answers about the unfinished paper were put away: {place}."


def one_waits(place: str) -> str:
    """Say that an unfinished paper is there, where nobody is asked."""
    return (
        f"An unfinished paper is there too, and stays as it is; its answers are kept in {place}. "
        "Without --no-ask they are taken up again."
    )


def kept(number: int, place: str) -> str:
    """Say where answers are kept; the command to go on with stands below."""
    return (
        f"Nothing was written into the review. {counted(number, 'answer is', 'answers are')} kept "
        f"in {place}. Go on with:"
    )


def unreadable(place: str) -> str:
    """Say that kept answers cannot be read."""
    return (
        f"{place} should hold the answers about an unfinished paper, and cannot be read. "
        "To begin anew, give --anew: the file is put away."
    )


def another_waits(place: str) -> str:
    """Say that another paper is unfinished."""
    return (
        f"Another paper is unfinished, and its answers are kept in {place}. Finish it first, "
        "without --reference; or give --anew, which puts its answers away."
    )
