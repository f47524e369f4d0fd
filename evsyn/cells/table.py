"""Build the evidence table of one question.

One study gives at most one row. A named level takes the arms of exactly that level; arms whose
level is mixed or not stated gather in one further level. An arm never enters beside an arm it
lies inside. The overall row of a study is its whole-study count where the paper gives one, else
the sum of its separate arms on one basis and window.
"""

from collections.abc import Callable, Iterable

from evsyn.cells.acceptance import Accepted, Refused, judge
from evsyn.cells.cell import Cell, CellTable, LeftOut, Mark, Question
from evsyn.cells.levels import ancestors, arm_level, era_level
from evsyn.extraction.plan import EraStratum, Plan
from evsyn.extraction.review import Review
from evsyn.extraction.rules.rule import count_source
from evsyn.extraction.study import Arm, Study
from evsyn.terms import OVERALL, UNPLACED, Covers


def cell_table(
    review: Review,
    question: Question,
    *,
    cut_year: int | None = None,
    without: Iterable[str] = (),
) -> CellTable:
    """Gather the rows of one pool, and list what was left out with the reason.

    Parameters
    ----------
    review : Review
        A review without faults.
    question : Question
        Outcome, and level of a stratum.
    cut_year : int, optional
        For an era, a cut other than the plan's.
    without : iterable of str
        Studies to leave out, as a unit's own series.
    """
    skipped = frozenset(without)
    stratum = review.plan.strata.get(question.stratum)
    belongs = _level_test(question, is_era=isinstance(stratum, EraStratum))
    cells: list[Cell] = []
    left_out: list[LeftOut] = []
    for study in review.studies:
        if isinstance(stratum, EraStratum) and (
            era_level(study, stratum, cut_year) != question.level
        ):
            continue
        row, dropped = _study_row(study, question, review.plan, belongs)
        if study.study in skipped and row is not None:
            dropped.append(_left(row, "the unit's own series"))
            row = None
        left_out += dropped
        if row is not None:
            cells.append(row)
    kept, doubled = _without_overlaps(review, cells)
    return CellTable(question, tuple(kept), (*left_out, *doubled))


def _any_arm(_: Arm) -> bool:
    return True


def _level_test(question: Question, *, is_era: bool) -> Callable[[Arm], bool]:
    if question.stratum == OVERALL or is_era:
        return _any_arm
    return lambda arm: arm_level(arm, question.stratum) == question.level


def _study_row(
    study: Study, question: Question, plan: Plan, belongs: Callable[[Arm], bool]
) -> tuple[Cell | None, list[LeftOut]]:
    reporting = [arm for arm in study.arms if question.outcome in arm.outcomes]
    judged = [judge(arm, question.outcome, plan) for arm in reporting if belongs(arm)]
    left_out = [
        _left_count(study, question.outcome, item, item.reason)
        for item in judged
        if isinstance(item, Refused)
    ]
    accepted = _topmost(study, [item for item in judged if isinstance(item, Accepted)])
    if question.level == UNPLACED and question.stratum in plan.strata:
        accepted = _not_told_by_parts(study, accepted, question, plan)
    if not accepted:
        return None, left_out
    groups: dict[tuple[str, str, str], list[Accepted]] = {}
    for item in accepted:
        key = (item.count.of, item.count.window, str(item.count.counted_by))
        groups.setdefault(key, []).append(item)
    chosen = min(groups.values(), key=_fitness)
    for group in groups.values():
        if group is not chosen:
            reason = "on another basis or window than the arms of this study that are pooled"
            left_out += [_left_count(study, question.outcome, i, reason) for i in group]
    separate = [arm for arm in study.arms if belongs(arm) and _is_separate(study, arm)]
    partial = _lacks_arms(study, chosen, separate)
    return _summed(study, question.outcome, chosen, partial=partial), left_out


def _fitness(group: list[Accepted]) -> tuple[bool, int]:
    """Put the plan's target basis and window first, then the group that holds most."""
    return group[0].rank != (0, 0), -sum(item.count.total for item in group)


def _topmost(study: Study, accepted: list[Accepted]) -> list[Accepted]:
    """Drop every arm that lies inside another accepted one."""
    names = {item.arm.arm for item in accepted}
    return [
        item
        for item in accepted
        if not any(above.arm in names for above in ancestors(study, item.arm))
    ]


def _not_told_by_parts(
    study: Study, accepted: list[Accepted], question: Question, plan: Plan
) -> list[Accepted]:
    """Drop a mixed arm whose parts already enter named levels: no patient in two levels."""
    named = [
        arm
        for arm in study.arms
        if question.outcome in arm.outcomes
        and arm_level(arm, question.stratum) != UNPLACED
        and isinstance(judge(arm, question.outcome, plan), Accepted)
    ]
    inside = {above.arm for arm in named for above in ancestors(study, arm)}
    return [item for item in accepted if item.arm.arm not in inside]


def _is_separate(study: Study, arm: Arm) -> bool:
    return arm.covers is not Covers.WHOLE_STUDY and not any(ancestors(study, arm))


def _lacks_arms(study: Study, chosen: list[Accepted], separate: list[Arm]) -> bool:
    pooled = {item.arm.arm for item in chosen}
    if any(item.arm.covers is Covers.WHOLE_STUDY for item in chosen):
        return False
    return any(
        arm.arm not in pooled and not any(inner in pooled for inner in _names_inside(study, arm))
        for arm in separate
    )


def _names_inside(study: Study, arm: Arm) -> list[str]:
    return [a.arm for a in study.arms if any(b.arm == arm.arm for b in ancestors(study, a))]


def _summed(study: Study, outcome: str, chosen: list[Accepted], *, partial: bool) -> Cell:
    marks = frozenset[Mark]().union(*(item.marks for item in chosen))
    if len(chosen) > 1:
        marks |= {Mark.SUMMED}
    if partial:
        marks |= {Mark.PARTIAL}
    first = chosen[0].count
    return Cell(
        study=study.study,
        label=study.name,
        year=study.citation.year,
        events=sum(item.count.events for item in chosen),
        total=sum(item.count.total for item in chosen),
        basis=first.of,
        window=first.window,
        marks=marks,
        sources=tuple(count_source(item.arm, outcome, item.count) for item in chosen),
    )


def _left_count(study: Study, outcome: str, item: Accepted | Refused, reason: str) -> LeftOut:
    source = count_source(item.arm, outcome, item.count)
    count = item.count
    return LeftOut(study.study, study.name, count.events, count.total, reason, source)


def _left(row: Cell, reason: str) -> LeftOut:
    return LeftOut(row.study, row.label, row.events, row.total, reason, row.sources[0])


def _without_overlaps(review: Review, cells: list[Cell]) -> tuple[list[Cell], list[LeftOut]]:
    """Of two studies that certainly share patients, keep the one named, else the larger."""
    rows = {cell.study: cell for cell in cells}
    left_out: list[LeftOut] = []
    for study in review.studies:
        for overlap in study.overlaps:
            one, other = rows.get(study.study), rows.get(overlap.study)
            if overlap.kind != "certain" or one is None or other is None:
                continue
            keep = overlap.keep or (one if one.total >= other.total else other).study
            lost = other if keep == one.study else one
            del rows[lost.study]
            left_out.append(_left(lost, f"shares patients with {keep}, which is pooled"))
    return [cell for cell in cells if cell.study in rows], left_out
