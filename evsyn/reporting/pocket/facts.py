"""How many series of a pool report what the plan declares of arms."""

from collections.abc import Iterable

from evsyn.cells.cell import CellTable
from evsyn.extraction.plan import Characteristic, Plan
from evsyn.extraction.review import Review
from evsyn.extraction.study import Arm, Study
from evsyn.terms import MIXED, NOT_STATED
from evsyn.wording.pocket_review import Reported


def arms_pooled(study: Study, plan: Plan) -> tuple[Arm, ...]:
    """Return the arms that shares are pooled over: of the first treatment, if there are several."""
    first = next(iter(plan.treatments), None)
    return tuple(arm for arm in study.arms if arm.treatment in (None, first))


def reported_facts(review: Review, table: CellTable) -> tuple[Reported, ...]:
    """Return, for every fact declared of arms, how many series of a table report it.

    Parameters
    ----------
    review : Review
        The review.
    table : CellTable
        The series.
    """
    pooled = {cell.study for cell in table.cells}
    studies = [study for study in review.studies if study.study in pooled]
    found = []
    for name, declared in review.plan.characteristics.arm.items():
        told = [
            {arm.characteristics.get(name, NOT_STATED) for arm in arms_pooled(study, review.plan)}
            - {NOT_STATED}
            for study in studies
        ]
        found.append(_reported(declared, [values for values in told if values]))
    return tuple(found)


def _reported(declared: Characteristic, told: list[set[str]]) -> Reported:
    levels = {**declared.levels, MIXED: "mixed"} if declared.levels else {}
    by_level = {words: sum(level in told_by for told_by in told) for level, words in levels.items()}
    least, most = "", ""
    if declared.kind == "number":
        least, most = _ends(value for values in told for value in values)
    return Reported(declared.label, len(told), by_level, least, most)


def _ends(written: Iterable[str]) -> tuple[str, str]:
    """Return the smallest and the largest as written; empty where one is no number."""
    values = sorted(written)
    try:
        return (min(values, key=float), max(values, key=float)) if values else ("", "")
    except ValueError:
        return "", ""
