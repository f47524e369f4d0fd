"""Words on a ladder of pooled answers."""

from dataclasses import dataclass

from evsyn.pooling.over_time import UpTo
from evsyn.wording.ask_bubbles import AXIS_STARTS

ALL_STUDIES = "As it stands"
NONE_READ = "none"
NOTHING_TO_DRAW = "No row is read of this pool, so there is nothing to draw."
_BELOW = (
    "The open bar, and the shade and line behind all rows, are the answer as it stands; each spot "
    "is the row to read of that line, with its {{level:.0%}} interval. {more}"
)


@dataclass(frozen=True, slots=True)
class LadderWords:
    """Title, headings and caption of one kind of ladder."""

    title: str
    subtitle: str
    headings: tuple[str, str, str]
    caption: str


LEAN = LadderWords(
    "{label}: if one study were out",
    "{group}; the row to read without each study, the largest shift first",
    ("Without", "its count", "% (interval)"),
    _BELOW.format(more="What stands out was picked after looking."),
)
OVER_TIME = LadderWords(
    "{label}: how the pool grew",
    "{group}; the row to read with the papers up to each year, from five studies on",
    ("Up to", "studies", "% (interval)"),
    _BELOW.format(more="Each row holds all studies of the rows above it."),
)
VARY = LadderWords(
    "{label}: what other sets of studies give",
    "{group}; the row to read of each set",
    ("Set", "studies", "% (interval)"),
    _BELOW.format(more="The sets share most of their studies."),
)


def axis_sentence(start: float) -> str:
    """Say where the axis starts, if that is not at 0; else nothing."""
    return f" The {AXIS_STARTS.format(start=f'{start:g}')}." if start > 0 else ""


def step_words(step: UpTo) -> str:
    """Name the last year of a step."""
    return "no year" if step.year is None else f"{step.year}"
