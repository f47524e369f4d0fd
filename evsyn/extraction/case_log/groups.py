"""Cases gathered into the groups of a unit: one for each combination of levels."""

from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from evsyn.extraction.case_log.case import Case
from evsyn.extraction.case_log.things import UNKNOWN
from evsyn.extraction.case_log.understand import CaseTable
from evsyn.extraction.flow.sets import YES
from evsyn.extraction.plan import LabelledStratum, Plan
from evsyn.extraction.unit import CaseLog, Group, LogOutcome
from evsyn.extraction.yaml_text import Block


def groups_of(table: CaseTable, log: CaseLog, plan: Plan) -> list[Group]:
    """Gather cases into groups, in the plan's order of levels.

    The patients of a group are its cases that reached the earliest stage over which an outcome is
    counted. Each group, and each count of it, has as its source the row of its first case.

    Parameters
    ----------
    table : CaseTable
        The cases.
    log : CaseLog
        What the unit file says of the log.
    plan : Plan
        The plan of the review.
    """
    bases = {one.of for one in log.outcomes.values()}
    first = min(plan.flow.index(stage) for stage in bases)
    gathered: dict[tuple[tuple[str, str], ...], list[Case]] = {}
    for case in table.cases:
        if plan.flow.index(case.reached) >= first:
            gathered.setdefault(tuple(case.strata.items()), []).append(case)
    order = sorted(gathered, key=lambda levels: _order(levels, plan))
    return [
        _group(place, dict(levels), gathered[levels], log, table.file)
        for place, levels in enumerate(order)
    ]


def _order(levels: Iterable[tuple[str, str]], plan: Plan) -> tuple[tuple[int, str], ...]:
    """Return where a group stands; mixed and not-stated levels come after named ones."""
    found = []
    for name, level in levels:
        stratum = plan.strata[name]
        named = list(stratum.levels) if isinstance(stratum, LabelledStratum) else []
        found.append((named.index(level) if level in named else len(named), level))
    return tuple(found)


def _group(
    place: int, levels: Mapping[str, str], cases: Sequence[Case], log: CaseLog, file: str
) -> Group:
    row, path = cases[0].source.line, f"groups.{place}"
    outcomes = {
        name: _block(row, f"{path}.outcomes.{name}", _count(name, one, cases))
        for name, one in log.outcomes.items()
        if any(name in case.outcomes for case in cases)
    }
    fields = {
        "strata": _block(row, f"{path}.strata", levels),
        "patients": len(cases),
        "outcomes": _block(row, f"{path}.outcomes", outcomes),
    }
    return Group.model_validate(_block(row, path, fields), context={"file": file})


def _count(name: str, one: LogOutcome, cases: Iterable[Case]) -> dict[str, Any]:
    said = [case.outcomes[name] for case in cases if name in case.outcomes]
    return {
        "events": said.count(YES),
        "total": len(said),
        "unknown": said.count(UNKNOWN),
        "of": one.of,
        "window": one.window,
    }


def _block(row: int, path: str, fields: Mapping[str, Any]) -> Block:
    block = Block(row, path)
    block.update(fields)
    block.key_lines = dict.fromkeys(fields, row)
    return block
