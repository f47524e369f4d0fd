"""Keep one study's arms apart: no patient enters one pool twice, or two levels of one stratum."""

from collections.abc import Callable, Sequence

from evsyn.cells.acceptance import Accepted, judge
from evsyn.cells.cell import Question
from evsyn.cells.levels import ancestors, arm_level, precedence
from evsyn.extraction.plan import Plan
from evsyn.extraction.study import Arm, Study


def topmost(study: Study, accepted: list[Accepted]) -> list[Accepted]:
    """Drop every arm that lies inside another accepted one."""
    names = {item.arm.arm for item in accepted}
    return [
        item
        for item in accepted
        if not any(above.arm in names for above in ancestors(study, item.arm))
    ]


def placed_ahead(study: Study, question: Question, plan: Plan) -> list[Accepted]:
    """Return the arms that enter a level going before the one asked for.

    For one stratum these are the arms at named levels, where the mixed-or-not-stated level is
    asked for. Where strata are crossed, see :func:`evsyn.cells.levels.precedence`.
    """
    here = precedence(question.levels)
    found = []
    for arm in study.arms:
        levels = [arm_level(arm, stratum) for stratum in question.strata]
        if question.outcome in arm.outcomes and precedence(levels) > here:
            judged = judge(arm, question.outcome, plan)
            found += [judged] if isinstance(judged, Accepted) else []
    return found


def outside(study: Study, accepted: list[Accepted], ahead: list[Accepted]) -> list[Accepted]:
    """Drop the arms that hold, or lie inside, an arm at a level that goes before theirs."""
    names = {item.arm.arm for item in ahead}
    holding = {above.arm for item in ahead for above in ancestors(study, item.arm)}
    return [
        item
        for item in accepted
        if item.arm.arm not in holding
        and not any(above.arm in names for above in ancestors(study, item.arm))
    ]


def apart(study: Study, accepted: list[Accepted], refused: list[Arm]) -> bool:
    """Tell whether a refused arm holds patients that no accepted arm holds.

    To pool such a study's other arms as the study would keep their patients and lose its own:
    an arm without events could stand for a study that had some.
    """
    names = {item.arm.arm for item in accepted}
    holding = {above.arm for item in accepted for above in ancestors(study, item.arm)}
    return any(
        arm.arm not in holding and not any(above.arm in names for above in ancestors(study, arm))
        for arm in refused
    )


def without_crossing(
    study: Study, chosen: list[Accepted], ahead: Sequence[Accepted] = ()
) -> tuple[list[Accepted], list[Accepted]]:
    """Part arms that can be separate from arms that must share patients with them.

    Arms of one study may divide it in two ways, as by intent and by device. Where together they
    hold more patients than the arm they lie inside, the larger totals are kept and the rest told.

    Parameters
    ----------
    study : Study
        The study.
    chosen : list of Accepted
        Arms of one level, none inside another.
    ahead : sequence of Accepted
        Arms at levels that go before it, none inside another; their patients are taken.

    Returns
    -------
    kept, crossing : list of Accepted
        Arms that may be summed, and arms that may not.
    """
    room = {arm.arm: arm.patients for arm in study.arms}
    for taken in ahead:
        for around in ancestors(study, taken.arm):
            room[around.arm] -= taken.arm.patients
    kept: list[Accepted] = []
    crossing: list[Accepted] = []
    for item in sorted(chosen, key=lambda one: -one.count.total):
        above = [arm.arm for arm in ancestors(study, item.arm)]
        if any(room[name] < item.arm.patients for name in above):
            crossing.append(item)
            continue
        kept.append(item)
        for name in above:
            room[name] -= item.arm.patients
    return [item for item in chosen if item in kept], crossing


def lacks_patients(study: Study, chosen: list[Accepted], belongs: Callable[[Arm], bool]) -> bool:
    """Tell whether patients of the study that belong to the question are not in its row."""
    pooled = {item.arm.arm for item in chosen}
    inside = [arm for arm in study.arms if belongs(arm)]
    names = {arm.arm for arm in inside}
    outermost = [
        arm for arm in inside if not any(above.arm in names for above in ancestors(study, arm))
    ]
    return any(_reached(study, arm, pooled) < arm.patients for arm in outermost)


def _reached(study: Study, arm: Arm, pooled: set[str]) -> int:
    if arm.arm in pooled:
        return arm.patients
    return min(arm.patients, sum(_reached(study, part, pooled) for part in study.parts_of(arm)))
