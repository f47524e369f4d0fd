"""Shares that stand side by side should be shares of the same."""

from collections import Counter
from collections.abc import Iterator

from evsyn.extraction.flow.group_lines import group_words
from evsyn.extraction.plan import Plan
from evsyn.extraction.rules.rule import UnitRule
from evsyn.extraction.unit import Group, Unit, UnitCount
from evsyn.terms import Finding, Severity

NAME = "unit-denominators"


def check(unit: Unit, plan: Plan) -> Iterator[Finding]:
    """Yield a doubt for each count over another basis, or in another window, than most groups'."""
    for outcome in sorted({name for group in unit.groups for name in group.outcomes}):
        groups = [group for group in unit.groups if outcome in group.outcomes]
        ways = Counter(_way(group.outcomes[outcome]) for group in groups)
        usual = ways.most_common(1)[0][0]
        for group in groups:
            if _way(group.outcomes[outcome]) != usual:
                yield _doubt(outcome, group, usual, plan)


def _way(count: UnitCount) -> tuple[str, str]:
    return count.of, count.window


def _doubt(outcome: str, group: Group, usual: tuple[str, str], plan: Plan) -> Finding:
    count = group.outcomes[outcome]
    differs = [
        f"{field} is {here} and not {there}"
        for field, here, there in zip(("of", "window"), _way(count), usual, strict=True)
        if here != there
    ]
    message = f"{outcome} ({group_words(group, plan)}): {', '.join(differs)} as in other groups"
    key = "of" if count.of != usual[0] else "window"
    cure = "Groups counted in different ways are not added up; count them in one way if you can."
    return Finding(NAME, Severity.DOUBT, count.source(key), message, cure)


RULE = UnitRule(
    NAME,
    Severity.DOUBT,
    "The same complication is 4 of 48 attempted or 4 of 43 placed; in one table of groups an "
    "outcome should have one basis and one window.",
    check,
)
