"""An outcome by the role of the operator, where there are roles and cases enough to hide in."""

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

from evsyn.audit.exact import exact_interval
from evsyn.extraction.case_log.case import Case
from evsyn.extraction.case_log.things import UNKNOWN
from evsyn.extraction.flow.sets import YES
from evsyn.extraction.plan import Plan
from evsyn.terms import Interval

#: A role that one or two people hold is those people's names; with few cases a share is luck.
#: (Both numbers: common practice, no source.)
LEAST_ROLES = 3
LEAST_CASES = 20


class Withheld(StrEnum):
    """Why nothing is told by role."""

    NO_ROLES = "no_roles"
    FEW_ROLES = "few_roles"
    FEW_CASES = "few_cases"


@dataclass(frozen=True, slots=True)
class RoleCount:
    """The count of one role.

    Parameters
    ----------
    role : str
        Its name in the plan.
    events, total : int
        The count, of cases whose outcome is known.
    unknown : int
        Cases of the same denominator whose outcome is not known.
    interval : Interval
        Exact 95% interval of the share.
    """

    role: str
    events: int
    total: int
    unknown: int
    interval: Interval


@dataclass(frozen=True, slots=True)
class ByRole:
    """An outcome by role.

    Parameters
    ----------
    outcome : str
        The outcome.
    counts : tuple of RoleCount
        In the plan's order of roles, which ranks nobody; empty where they are withheld.
    unplaced : int
        Cases of the denominator of which no role is known; 0 where counts are withheld.
    withheld : Withheld or None
        Why nothing is told.
    """

    outcome: str
    counts: tuple[RoleCount, ...]
    unplaced: int
    withheld: Withheld | None


def by_role(cases: Sequence[Case], outcome: str, plan: Plan) -> ByRole:
    """Count an outcome by the role of the operator.

    Parameters
    ----------
    cases : sequence of Case
        Cases of a log.
    outcome : str
        Outcome the log tells.
    plan : Plan
        The plan, whose roles they are.

    Notes
    -----
    Roles with a case of the outcome's denominator count as roles. Nothing is told if they are
    fewer than three, or if any of them has fewer than twenty cases with a known outcome.
    """
    counted = [case for case in cases if outcome in case.outcomes]
    found = {role: [c for c in counted if c.operator == role] for role in plan.audit.roles}
    present = {role: of_role for role, of_role in found.items() if of_role}
    if len(present) < LEAST_ROLES:
        return ByRole(outcome, (), 0, Withheld.FEW_ROLES if present else Withheld.NO_ROLES)
    counts = tuple(_counted(role, of_role, outcome) for role, of_role in present.items())
    if any(count is None for count in counts):
        return ByRole(outcome, (), 0, Withheld.FEW_CASES)
    unplaced = len(counted) - sum(map(len, present.values()))
    return ByRole(outcome, tuple(count for count in counts if count is not None), unplaced, None)


def _counted(role: str, cases: Sequence[Case], outcome: str) -> RoleCount | None:
    """Return the count of a role; ``None`` where it has too few cases."""
    said = [case.outcomes[outcome] for case in cases]
    unknown = said.count(UNKNOWN)
    events, total = said.count(YES), len(said) - unknown
    if total < LEAST_CASES:
        return None
    return RoleCount(role, events, total, unknown, exact_interval(events, total))
