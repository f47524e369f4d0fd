"""What these papers cannot tell, and what to look up in each."""

from dataclasses import dataclass

from evsyn.cells.levels import arm_level, labelled_strata
from evsyn.extraction.review import Review
from evsyn.extraction.study import Study
from evsyn.terms import UNPLACED
from evsyn.wording.citation import citation_text


@dataclass(frozen=True, slots=True)
class LookUp:
    """One paper, and what to look for in it."""

    label: str
    citation: str
    what: tuple[str, ...]


def look_up_list(review: Review, outcome: str) -> tuple[LookUp, ...]:
    """List every paper in which something about an outcome can still be looked up.

    Parameters
    ----------
    review : Review
        The review.
    outcome : str
        An outcome of the plan.

    Returns
    -------
    tuple of LookUp
        One entry a paper: levels it does not state, a count it does not give, a denominator or
        window that is assumed or not stated.
    """
    listed = []
    for study in review.studies:
        what = (*_count(review, study, outcome), *_levels(review, study))
        if what:
            listed.append(LookUp(study.name, citation_text(study.citation), what))
    return tuple(listed)


def _count(review: Review, study: Study, outcome: str) -> tuple[str, ...]:
    words = review.plan.outcomes[outcome]
    counts = [arm.outcomes[outcome] for arm in study.arms if outcome in arm.outcomes]
    target = review.plan.denominators[words.denominators[0]]
    if not counts:
        return (f"{words.events}: how many, of {target}",)
    found = []
    if any(c.assumed or c.of not in words.denominators for c in counts):
        found.append(f"{words.events}: the denominator, best {target}")
    if words.windows and any(c.window == "not_stated" for c in counts):
        found.append(f"{words.events}: the window, best {_window(review, words.windows[0])}")
    return tuple(found)


def _window(review: Review, name: str) -> str:
    return review.plan.windows[name].label


def _levels(review: Review, study: Study) -> tuple[str, ...]:
    return tuple(
        stratum.look_up or stratum.asks
        for name, stratum in labelled_strata(review.plan).items()
        if any(arm_level(arm, name) == UNPLACED for arm in study.arms)
        and not any(arm_level(arm, name) != UNPLACED for arm in study.arms)
    )
