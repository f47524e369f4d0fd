"""Words of the page's tables of disputed counts."""

from evsyn.pooling.disputed import MOST_EVENTS
from evsyn.wording.disputed import StudySaid

#: Columns of each table; the first heads the row.
DISPUTED_HEADINGS = (
    "Study",
    *(f"{by} fewer" for by in range(MOST_EVENTS, 0, -1)),
    *(f"{by} more" for by in range(1, MOST_EVENTS + 1)),
    "Left out",
    "Events that change the sentence",
)
DISPUTED_READ = (
    "Every cell is the pool made afresh with that one count changed: the row to read in %, its "
    "shift in points to two decimals, and its interval; the first row is the pool as it stands. A "
    "dash: no such count. Studies that shift it most stand "
    "first. The sentence is changed where it says something else than before, not only another "
    "number."
)
UNCHANGED = "No count changed"
NO_CHANGE = f"none of up to {MOST_EVENTS}"


def fewest_words(said: StudySaid) -> str:
    """Say how few events of one study would change the sentence."""
    return NO_CHANGE if said.fewest is None else str(said.fewest)


def folded_title(outcome: str, k: int, *, changing: int) -> str:
    """Head one outcome's table, with what it finds.

    Parameters
    ----------
    outcome : str
        Its label.
    k : int
        Studies in the pool.
    changing : int
        Studies whose count or presence changes the sentence.
    """
    found = (
        f"the sentence hangs on {changing} of {k} studies"
        if changing
        else "no single study changes the sentence"
    )
    return f"{outcome}: {found}"


def disputed_elsewhere(review: str, outcome: str) -> str:
    """Say how one count is changed at will."""
    return (
        f"By level, or for a count of your own choosing: evsyn pool with --disputed, or with "
        f"--what-if STUDY.{outcome}=6/52, on the folder of the review '{review}'."
    )


def left_to_the_command(outcomes: tuple[str, ...]) -> str:
    """Say which outcomes have no table here; empty for none."""
    if not outcomes:
        return ""
    return (
        f"Not here, since so many studies would take minutes: {', '.join(outcomes)}. "
        "evsyn pool --disputed has them."
    )


def not_pooled_here(outcomes: tuple[str, ...]) -> str:
    """Say which outcomes have no pool that a count could change; empty for none."""
    return f"Nothing is pooled, so nothing to shift: {', '.join(outcomes)}." if outcomes else ""
