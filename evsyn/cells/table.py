"""Build the evidence table of one question.

One study gives at most one row. A named level takes the arms of exactly that level; arms whose
level is mixed or not stated gather in one further level. Where strata are crossed, an arm is of
exactly one level in each. An arm never enters beside an arm it
lies inside. The overall row of a study is its whole-study count where the paper gives one, else
the sum of its separate arms on one basis and window.
"""

from collections.abc import Callable, Iterable
from functools import partial
from itertools import product

from evsyn.cells.acceptance import Accepted, Refused, judge
from evsyn.cells.cell import Cell, CellTable, LeftOut, Mark, Question, question_at
from evsyn.cells.levels import arm_level, era_level, labelled_strata, level_names
from evsyn.cells.nesting import (
    apart,
    lacks_patients,
    outside,
    placed_ahead,
    topmost,
    without_crossing,
)
from evsyn.cells.overlaps import told_at_other_levels, winners
from evsyn.extraction.plan import EraStratum, Plan
from evsyn.extraction.review import Review
from evsyn.extraction.rules.rule import count_source
from evsyn.extraction.study import Arm, Study


def cell_table(
    review: Review,
    question: Question,
    *,
    cut_year: int | None = None,
    without: Iterable[str] = (),
    reason: str = "the unit's own series",
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
    reason : str
        Why they are left out.

    Raises
    ------
    ValueError
        If an era is crossed with another stratum.
    """
    skipped = frozenset(without)
    stratum = review.plan.strata.get(question.stratum)
    if question.also and not set(question.strata) <= set(labelled_strata(review.plan)):
        raise ValueError(f"only strata that the extracts label can be crossed; got {question.key}")
    belongs = _level_test(question, review.plan, is_era=isinstance(stratum, EraStratum))
    cells: list[Cell] = []
    left_out: list[LeftOut] = []
    for study in review.studies:
        if isinstance(stratum, EraStratum) and (
            era_level(study, stratum, cut_year) != question.level
        ):
            continue
        row, dropped = study_row(study, question, review.plan, belongs)
        if study.study in skipped and row is not None:
            dropped.append(left_out_cell(row, reason))
            row = None
        left_out += dropped
        if row is not None:
            cells.append(row)
    lost = {name: f"{kept}, which is pooled" for name, kept in winners(review, cells).items()}
    if stratum is not None:
        rows_of = partial(_rows_by_levels, review, question, cut_year, skipped)
        told = told_at_other_levels(review, cells, question.levels, rows_of)
        lost |= {name: f"{kept}, which stands at another level" for name, kept in told.items()}
    left_out += [
        left_out_cell(cell, f"shares patients with {lost[cell.study]}")
        for cell in cells
        if cell.study in lost
    ]
    kept_cells = tuple(cell for cell in cells if cell.study not in lost)
    return CellTable(question, kept_cells, tuple(left_out))


def _rows_by_levels(
    review: Review,
    question: Question,
    cut_year: int | None,
    skipped: frozenset[str],
    name: str,
) -> dict[tuple[str, ...], Cell]:
    """Return a study's rows at all levels of the strata asked about; none if it is left out."""
    study = review.study(name)
    if study is None or name in skipped:
        return {}
    declared = [review.plan.strata[stratum] for stratum in question.strata]
    rows: dict[tuple[str, ...], Cell] = {}
    for levels in product(*(level_names(stratum, cut_year) for stratum in declared)):
        eras = [
            era_level(study, stratum, cut_year) == level
            for stratum, level in zip(declared, levels, strict=True)
            if isinstance(stratum, EraStratum)
        ]
        if not all(eras):
            continue
        asked = question_at(question.outcome, zip(question.strata, levels, strict=True))
        is_era = bool(eras)
        row, _ = study_row(
            study, asked, review.plan, _level_test(asked, review.plan, is_era=is_era)
        )
        if row is not None:
            rows[levels] = row
    return rows


def _level_test(question: Question, plan: Plan, *, is_era: bool) -> Callable[[Arm], bool]:
    """Take the arms of these levels; where the plan lists treatments, those of the first."""
    first = next(iter(plan.treatments), None)
    places = () if is_era else question.places

    def belongs(arm: Arm) -> bool:
        return arm.treatment in (None, first) and all(
            arm_level(arm, stratum) == level for stratum, level in places
        )

    return belongs


def study_row(
    study: Study, question: Question, plan: Plan, belongs: Callable[[Arm], bool]
) -> tuple[Cell | None, list[LeftOut]]:
    """Return a study's row from the arms that belong, and its counts that are left out."""
    reporting = [arm for arm in study.arms if question.outcome in arm.outcomes]
    judged = [judge(arm, question.outcome, plan) for arm in reporting if belongs(arm)]
    left_out = [
        _left_count(study, question.outcome, item, item.reason)
        for item in judged
        if isinstance(item, Refused)
    ]
    ahead = placed_ahead(study, question, plan)
    accepted = [item for item in judged if isinstance(item, Accepted)]
    accepted = topmost(study, outside(study, accepted, ahead))
    if not accepted:
        return None, left_out
    refused = [item.arm for item in judged if isinstance(item, Refused)]
    if question.stratum not in labelled_strata(plan) and apart(study, accepted, refused):
        reason = "another arm of this study counts it in a way the plan does not accept"
        left_out += [_left_count(study, question.outcome, item, reason) for item in accepted]
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
    kept, crossing = without_crossing(study, chosen, topmost(study, ahead))
    reason = "may hold the same patients as the arms of this study that are pooled"
    left_out += [_left_count(study, question.outcome, item, reason) for item in crossing]
    if not kept:
        return None, left_out
    lacking = lacks_patients(study, kept, belongs)
    return _summed(study, question.outcome, kept, partial=lacking), left_out


def _fitness(group: list[Accepted]) -> tuple[bool, int]:
    """Put the plan's target basis and window first, then the group that holds most."""
    return group[0].rank != (0, 0), -sum(item.count.total for item in group)


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


def left_out_cell(row: Cell, reason: str) -> LeftOut:
    """Return a whole row as left out, with the reason."""
    return LeftOut(row.study, row.label, row.events, row.total, reason, row.sources[0])
