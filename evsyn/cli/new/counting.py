"""Ask for the levels and counts of a group of patients, in the words of a plan."""

from collections.abc import Sequence
from dataclasses import dataclass
from textwrap import fill
from typing import TYPE_CHECKING, Any

from evsyn.cli.new.asking import Asker, Given
from evsyn.cli.options import WIDTH

if TYPE_CHECKING:
    from evsyn.extraction.plan import Plan
    from evsyn.extraction.starting.groups import Placed


@dataclass(frozen=True, slots=True)
class GivenGroups:
    """What options say of groups.

    Parameters
    ----------
    named : tuple of str
        The groups that options name.
    waiting : list
        Name and number of patients of each group that is still to be read; ``None`` to be asked.
    levels, counts : list of Placed
        Levels and counts of groups.
    """

    named: tuple[str, ...]
    waiting: list[tuple[str | None, str | None]]
    levels: "list[Placed]"
    counts: "list[Placed]"


def given_groups(
    asker: Asker,
    plan: "Plan",
    option: str,
    written: Sequence[str],
    given: Given,
    *,
    of_paper: bool,
) -> GivenGroups:
    """Return what the options say of groups; a group that no option names is a fault."""
    from evsyn.extraction.starting import answers, groups
    from evsyn.wording import new_questions as say

    named: list[tuple[str, str]] = asker.each(option, written, answers.pair)
    if not written and not asker.asks:
        asker.missing(option, say.GROUP_MISSING)
    counts = asker.each(
        "--count", given["counts"], lambda one: groups.count(one, plan, of_paper=of_paper)
    )
    levels = asker.each("--level", given["levels"], lambda one: groups.level(one, plan))
    known = [name for name, _ in named]
    for kind, found in (("--count", counts), ("--level", levels)):
        for one in found:
            if one.group and known:
                asker.read(kind, one.group, answers.among(known))
    waiting: list[tuple[str | None, str | None]] = [*named] or [(None, None)] * asker.asks
    return GivenGroups(tuple(known), waiting, levels, counts)


def level_of_each(
    asker: Asker, plan: "Plan", group: str, given: "Sequence[Placed]"
) -> dict[str, str]:
    """Return the level of a group in each stratum of the plan."""
    from evsyn.extraction.schema.plan_words import levels, strata
    from evsyn.extraction.starting.groups import of_group
    from evsyn.terms import NOT_STATED
    from evsyn.wording import new_questions as say

    known = of_group(given, group)
    asker.about = group
    for name, stratum in strata(plan).items():
        if name not in known:
            asked = say.LEVEL.format(label=stratum.label, asks=stratum.asks)
            known[name] = asker.choice(
                asked, f"--level {group}.{name}", None, levels(stratum), default=NOT_STATED
            )
    asker.about = ""
    return {name: known[name] for name in strata(plan)}


def counts_of(
    asker: Asker,
    plan: "Plan",
    group: str,
    given: "Sequence[Placed]",
    *,
    of_paper: bool,
    needed: bool,
    patients: int | None = None,
) -> dict[str, Any]:
    """Return the counts of a group by outcome: those of the options, and those asked for.

    Parameters
    ----------
    asker : Asker
        Where answers come from.
    plan : Plan
        The plan whose words are used.
    group : str
        Name of the group.
    given : sequence of Placed
        The counts that options give, of every group.
    of_paper : bool
        Whether they are read in a paper, and are not a unit's own.
    needed : bool
        Whether the group must have one.
    patients : int, optional
        What no total may be above.
    """
    from evsyn.extraction.starting.groups import of_group
    from evsyn.wording import new_questions as say

    counts = of_group(given, group)
    if needed and not counts and not asker.asks and not asker.failed("--count"):
        asker.missing("--count", say.COUNT_MISSING.format(group=group))
    if counts or not asker.asks:
        return counts
    labels = {name: one.label for name, one in plan.outcomes.items()}
    while len(counts) < len(plan.outcomes):
        wanted = needed and not counts
        question = say.OUTCOME if wanted else say.NEXT_OUTCOME
        said = question.format(group=group)
        asker.about = ""
        outcome = asker.choice(said, "--count", None, labels, needed=wanted, used=counts)
        if outcome is None:
            break
        asker.about = f"{group}.{outcome}"
        counts[outcome] = _count(asker, plan, outcome, patients, of_paper=of_paper)
        while of_paper and _is_typed_again(asker, plan, counts, outcome, patients):
            counts[outcome] = _count(asker, plan, outcome, patients, of_paper=of_paper)
    asker.about = ""
    return counts


def _is_typed_again(
    asker: Asker, plan: "Plan", counts: Given, outcome: str, patients: int | None
) -> bool:
    """Say what is doubtful about the count just typed, and ask whether to type it once more."""
    from evsyn.cells.acceptance import Refused, judge
    from evsyn.extraction.starting.glance import said_of_count, study_typed
    from evsyn.wording import new_questions as say
    from evsyn.wording.added import not_pooled_over

    told = [say.doubtful(one) for one in said_of_count(plan, counts, outcome, patients)]
    typed, _ = study_typed(counts, patients)
    if typed is not None:
        judged = judge(typed.arms[0], outcome, plan)
        if isinstance(judged, Refused):
            told.append(not_pooled_over(plan, outcome, judged.reason))
    if not told:
        return False
    asker.tell(["", *(fill(one, WIDTH, break_on_hyphens=False) for one in told)])
    return asker.yes(say.AGAIN, None, default=False)


def _count(
    asker: Asker, plan: "Plan", outcome: str, patients: int | None, *, of_paper: bool
) -> dict[str, Any]:
    from evsyn.extraction.schema.plan_words import denominators, outcome_words, windows
    from evsyn.extraction.starting import answers
    from evsyn.terms import NOT_STATED
    from evsyn.wording import new_questions as say
    from evsyn.wording.added import by_plan

    wanted = plan.outcomes[outcome]
    asker.tell(["", fill(outcome_words(wanted, plan), WIDTH)])
    if of_paper and wanted.do_not_pool:
        asker.tell([fill(say.NOT_BY_PLAN.format(reason=by_plan(wanted.do_not_pool)), WIDTH)])
    events, total = asker.one(say.COUNT, "--count", None, answers.events_of_total(patients))
    made: dict[str, Any] = {"events": events, "total": total}
    if not of_paper:
        most = answers.number(0, total - events)
        made["unknown"] = asker.one(say.UNKNOWN, "--count", None, most, default="0") or None
    bases = denominators(plan, printed=of_paper)
    made["of"] = asker.choice(say.OF, "--count", None, bases)
    times = windows(plan)
    made["window"] = asker.choice(say.WINDOW, "--count", None, times, default=NOT_STATED)
    if of_paper:
        made["at"] = asker.optional(say.AT, "--count", None, answers.text)
        made["printed"] = asker.optional(say.PRINTED, "--count", None, answers.percentage)
    said = say.typed(wanted.label, events, total, bases[made["of"]], times[made["window"]])
    asker.tell(["", fill(said, WIDTH)])
    return {key: value for key, value in made.items() if value is not None}
