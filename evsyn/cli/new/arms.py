"""Ask for the groups of patients of a study."""

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from evsyn.cli.new.asking import Asker, Given
from evsyn.cli.new.counting import GivenGroups, counts_of, given_groups, level_of_each

if TYPE_CHECKING:
    from evsyn.extraction.plan import Plan


def arms_of(asker: Asker, plan: "Plan", given: Given) -> list[Given]:
    """Return the groups of a study, one at least, with at least one count among them."""
    from evsyn.wording import new_questions as say

    groups = given_groups(asker, plan, "--arm", given["arms"], given, of_paper=True)
    if groups.named:
        _named_known(asker, groups.named, given)
    arms: list[Given] = []
    while groups.waiting:
        arms.append(_arm(asker, plan, groups, arms, given))
        asker.about = arms[-1]["arm"]
        if asker.asks and not groups.named and asker.yes(say.ANOTHER_ARM, None, default=False):
            groups.waiting.append((None, None))
        asker.about = ""
    return arms


def _named_known(asker: Asker, named: Sequence[str], given: Given) -> None:
    """Note a fault for each group that an option names and that is none of the study's."""
    from evsyn.extraction.starting import answers

    among = answers.among(named)
    for option, written in (("--fact", given["facts"]), ("--treatment", given["treatments"])):
        for one in written:
            group = one.partition("=")[0].rpartition(".")[0]
            if group:
                asker.read(option, group, among)
    if given["whole"]:
        asker.read("--whole", given["whole"], among)


def _arm(
    asker: Asker, plan: "Plan", groups: GivenGroups, before: Sequence[Given], given: Given
) -> Given:
    from evsyn.extraction.starting import answers
    from evsyn.wording import new_questions as say

    wanted, patients = groups.waiting.pop(0)
    taken = [one["arm"] for one in before]
    name = asker.one(say.ARM, "--arm", wanted, answers.unlike(taken)) or ""
    said = say.ARM_PATIENTS.format(group=name)
    number = asker.one(said, "--arm", patients, answers.number(1))
    alone = len(groups.named) < 2
    told = given["whole"] == name if given["whole"] or not alone else None
    asker.about = name
    whole = asker.yes(say.WHOLE, told, default=not before)
    asker.about = ""
    needed = not groups.waiting and not any("outcomes" in one for one in before)
    arm: dict[str, Any] = {
        "arm": name,
        "covers": "whole_study" if whole else None,
        "treatment": _treatment(asker, plan, name, given["treatments"]),
        "strata": level_of_each(asker, plan, name, groups.levels),
        "characteristics": facts_of(asker, plan, name, given["facts"]),
        "patients": number,
        "outcomes": counts_of(asker, plan, name, groups.counts, of_paper=True, needed=needed),
    }
    return {key: value for key, value in arm.items() if value not in (None, {})}


def _treatment(asker: Asker, plan: "Plan", group: str, given: Sequence[str]) -> Any:
    from evsyn.wording import new_questions as say

    if not plan.treatments:
        return None
    parts = [one.rpartition(".") for one in given]
    named = [treatment for of, _, treatment in parts if of in ("", group)]
    said = say.TREATMENT.format(group=group)
    return asker.choice(said, "--treatment", named[-1] if named else None, plan.treatments)


def facts_of(asker: Asker, plan: "Plan", group: str, given: Sequence[str]) -> dict[str, Any]:
    """Return the facts of a group, or of the study where ``group`` is empty."""
    from evsyn.extraction.schema.plan_words import levels
    from evsyn.extraction.starting import answers
    from evsyn.extraction.starting.groups import placed

    declared = plan.characteristics.arm if group else plan.characteristics.study
    told = {name: words for of, name, words in asker.each("--fact", given, placed) if of == group}
    for name in told:
        asker.read("--fact", name, answers.among(list(declared)))
    found: dict[str, Any] = {}
    asker.about = group
    for name, fact in declared.items():
        value = told.get(name)
        if fact.kind == "choice":
            found[name] = asker.choice(fact.label, "--fact", value, levels(fact), needed=False)
        else:
            found[name] = asker.optional(fact.label, "--fact", value, answers.text)
    asker.about = ""
    return {name: value for name, value in found.items() if value is not None}
