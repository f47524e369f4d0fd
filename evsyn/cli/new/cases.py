"""Ask for a unit's cases: the stages they reached, and counts of groups with the same labels."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

from evsyn.cli.new.asking import Asker, Given
from evsyn.cli.new.counting import counts_of, given_groups, level_of_each

if TYPE_CHECKING:
    from evsyn.extraction.plan import Plan


def flow_of(asker: Asker, plan: "Plan", given: Sequence[str]) -> dict[str, int]:
    """Return how many cases reached each stage of the plan's flow; any may be left out."""
    from evsyn.extraction.starting import answers
    from evsyn.wording import new_questions as say

    told = dict(asker.each("--flow", given, answers.pair))
    for stage in told:
        asker.read("--flow", stage, answers.among([*plan.flow, *plan.course.steps]))
    found: dict[str, int] = {}
    most = 10**9
    for stage in plan.flow:
        said = say.FLOW.format(words=plan.denominators.get(stage, stage))
        number = asker.optional(said, "--flow", told.pop(stage, None), answers.number(0, most))
        if number is not None:
            found[stage], most = number, number
    steps = {step: asker.read("--flow", n, answers.number()) for step, n in told.items()}
    return found | steps


def groups_of(asker: Asker, plan: "Plan", given: Given, *, by_patient: bool) -> list[Given]:
    """Return the groups of a unit, one at least, each with at least one count.

    Parameters
    ----------
    asker : Asker
        Where answers come from.
    plan : Plan
        The plan whose words are used.
    given : dict
        What the options hold.
    by_patient : bool
        Whether totals count each patient once, so that none is above its group's patients.
    """
    from evsyn.extraction.starting import answers
    from evsyn.wording import new_questions as say

    groups = given_groups(asker, plan, "--group", given["groups"], given, of_paper=False)
    found: dict[str, Given] = {}
    while groups.waiting:
        wanted, patients = groups.waiting.pop(0)
        said = say.NEXT_GROUP if found else say.GROUP
        name = asker.one(said, "--group", wanted, answers.unlike(list(found))) or ""
        said = say.CASES.format(group=name)
        number = asker.one(said, "--group", patients, answers.number(1))
        found[name] = {
            "strata": level_of_each(asker, plan, name, groups.levels),
            "patients": number,
            "outcomes": counts_of(
                asker,
                plan,
                name,
                groups.counts,
                of_paper=False,
                needed=True,
                patients=number if by_patient else None,
            ),
        }
        asker.about = name
        if asker.asks and not groups.named and asker.yes(say.ANOTHER_GROUP, None, default=False):
            groups.waiting.append((None, None))
        asker.about = ""
    return list(found.values())
