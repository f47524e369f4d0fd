"""How far a unit's counts are told, and which side of a figure is invented."""

from collections import Counter
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from typing import TypeAlias

from evsyn.audit.reasons import Reason
from evsyn.audit.standing import Standing, standings
from evsyn.cells.cell import Question
from evsyn.extraction.load import CheckedUnit
from evsyn.extraction.review import Review
from evsyn.figures.funnel import FunnelPoint
from evsyn.figures.invented import Invented
from evsyn.figures.own_count import OwnCount
from evsyn.pooling.review import Answers
from evsyn.wording.forest_notes import not_drawn_sentence
from evsyn.wording.funnel import SEVERAL, invented_name, periods_sentence, withheld_sentence

#: Says how far a count may be told; ``None`` leaves it out of the figure.
Tell: TypeAlias = Callable[[Standing], OwnCount | None]


def exactly(standing: Standing) -> OwnCount:
    """Tell a count as it is, for use inside the unit."""
    return OwnCount.exact(standing.events, standing.total)


def invented_of(review: Review, units: Sequence[CheckedUnit]) -> Invented:
    """Return which side of a comparison is invented."""
    ours = any(checked.unit.invented for checked in units)
    if review.invented:
        return Invented.ALL if ours else Invented.STUDIES
    return Invented.UNIT if ours else Invented.NOTHING


def periods_of(units: Sequence[CheckedUnit]) -> str:
    """Name the unit and its periods where one unit is shown over several; else empty."""
    if len(units) < 2 or len({checked.unit.label for checked in units}) > 1:
        return ""
    periods = [(checked.unit.period.from_, checked.unit.period.to) for checked in units]
    return periods_sentence(units[0].unit.label, periods)


def funnel_notes(
    said: Iterable[str],
    points: Iterable[FunnelPoint],
    rest: Iterable[tuple[str, Reason | None]],
    *,
    is_several: bool,
) -> tuple[str, ...]:
    """Return the remarks under a funnel: those of its own kind, then what ends all of them.

    Parameters
    ----------
    said : iterable of str
        Remarks of its own kind; empty ones are left out.
    points : iterable of FunnelPoint
        Its units.
    rest : iterable of tuple
        Units that are not drawn, and why.
    is_several : bool
        Whether a count told as one of several may be flagged.
    """
    notes = (
        *said,
        SEVERAL if is_several else "",
        not_drawn_sentence(rest),
        withheld_sentence([point.label for point in points if not point.is_drawn]),
    )
    return tuple(note for note in notes if note)


def _spans(units: Sequence[CheckedUnit]) -> dict[int, str]:
    """Name each period by its years, or by its months where years do not tell periods apart."""
    periods = [checked.unit.period for checked in units]
    years = [f"{period.from_[:4]} to {period.to[:4]}" for period in periods]
    months = [f"{period.from_} to {period.to}" for period in periods]
    names = [checked.unit.label for checked in units]
    are_apart = len(set(zip(names, years, strict=True))) == len(
        set(zip(names, months, strict=True))
    )
    told = years if are_apart else months
    return {id(checked): said for checked, said in zip(units, told, strict=True)}


@dataclass(frozen=True, slots=True)
class ToldCount:
    """One count of one unit, and how far it is told.

    Parameters
    ----------
    name : str
        The unit's name, unlike that of every other count of the figure.
    unit : str
        The unit's short name, the same for all its periods.
    standing : Standing
        The count.
    own : OwnCount
        How far it is told.
    """

    name: str
    unit: str
    standing: Standing
    own: OwnCount


def told_counts(
    review: Review,
    units: Sequence[CheckedUnit],
    answers: Answers,
    question: Question,
    tell: Tell,
) -> tuple[ToldCount, ...]:
    """Return the counts of a question that may be shown, each under a name of its own.

    Parameters
    ----------
    review : Review
        The review.
    units : sequence of CheckedUnit
        Units, or periods of one.
    answers : mapping
        The pools they are set against; empty where there is none.
    question : Question
        Outcome and level.
    tell : callable
        How far each count is told.
    """
    labels = Counter(checked.unit.label for checked in units)
    is_one_unit = len(units) > 1 and len(labels) == 1
    spans = _spans(units)
    side = invented_of(review, units)
    found = []
    for checked in units:
        unit = checked.unit
        name = unit.label
        if labels[name] > 1:
            name = spans[id(checked)] if is_one_unit else f"{name}, {spans[id(checked)]}"
        if unit.invented and side is Invented.UNIT:
            name = invented_name(name)
        for standing in standings(unit, answers, review.plan):
            own = tell(standing) if standing.question == question else None
            if own is not None:
                found.append(ToldCount(name, unit.unit, standing, own))
    return tuple(found)
