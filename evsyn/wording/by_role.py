"""An outcome by the role of the operator, in words."""

from evsyn.audit.by_role import LEAST_CASES, LEAST_ROLES, ByRole, Withheld
from evsyn.extraction.plan import Plan
from evsyn.wording.numbers import count, counted, percent, span

_WHY = {
    Withheld.NO_ROLES: "no case of it names the role of its operator",
    Withheld.FEW_ROLES: f"there are fewer than {LEAST_ROLES} roles among its cases, and a role "
    "that few people hold names them",
    Withheld.FEW_CASES: f"a role has fewer than {LEAST_CASES} cases with a known outcome, too few "
    "to tell a person's luck from a way of working",
}
_NO_ORDER = (
    "The order is the plan's and ranks nobody. Roles take different cases, which is not allowed "
    "for here: a difference between roles is a question about cases, and no answer about people."
)


def role_sentences(told: ByRole, plan: Plan) -> tuple[str, ...]:
    """Say an outcome by role, or why it is not said.

    Parameters
    ----------
    told : ByRole
        The outcome by role.
    plan : Plan
        The plan, whose words are used.
    """
    label = plan.outcomes[told.outcome].label
    if told.withheld is not None:
        return (f"{label} is not told by role of the operator: {_WHY[told.withheld]}.",)
    said = [f"{label} by role of the operator (exact 95% intervals):"]
    for one in told.counts:
        share = percent(one.events / one.total)
        unknown = f", {counted(one.unknown, 'more', 'more')} not known" if one.unknown else ""
        said.append(
            f"{plan.audit.roles[one.role]}: {count(one.events, one.total)} ({share}; "
            f"{span(one.interval.low, one.interval.high)}){unknown}."
        )
    if told.unplaced:
        cases = counted(told.unplaced, "case has", "cases have")
        said.append(f"{cases} no role written down and {'is' if told.unplaced == 1 else 'are'} "
                    "in none of these.")  # fmt: skip
    return (*said, _NO_ORDER)
