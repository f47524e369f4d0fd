"""Our own count on the pocket card, in full or as it may be told outside."""

from collections.abc import Sequence

from evsyn.audit.outside import OutsideCount
from evsyn.audit.reasons import Reason
from evsyn.audit.standardised import Standardisation
from evsyn.audit.standing import Standing
from evsyn.audit.unit_audit import UnitAudit
from evsyn.extraction.plan import Plan
from evsyn.terms import OVERALL, Audience, Better
from evsyn.wording.audit import (
    WITHIN_MEANS,
    ascertainment_sentence,
    count_sentence,
    one_sided_sentence,
)
from evsyn.wording.audit_summary import primary_sentence
from evsyn.wording.audit_unknown import NO_FOLLOW_UP, unknown_sentence
from evsyn.wording.numbers import percent
from evsyn.wording.outside import cases_sentence, outside_sentences
from evsyn.wording.own_series import alarm_sentences
from evsyn.wording.pocket import Prompt
from evsyn.wording.standardised import refused_sentences, whole_verdict_sentence

QUESTION = "What are your own figures?"

NEVER_RELEASED = (
    '"We are as good as others", or "better", or "worse": '
    f"{WITHIN_MEANS[:1].lower()}{WITHIN_MEANS[1:]}"
)
NEVER_INSIDE = f"{NEVER_RELEASED} Nor any of this outside the unit."
NEVER_OUTSIDE = (
    "An exact count, a share, a level, a date or an operator that does not stand here: it would "
    f"give back what is hidden. {WITHIN_MEANS}"
)


def own_prompt(found: UnitAudit, plan: Plan, audience: Audience, *, can_check: bool) -> Prompt:
    """Say a unit's own counts in full: the first with its limits and its place, then the others.

    Parameters
    ----------
    found : UnitAudit
        Where the unit stands.
    plan : Plan
        The plan, for its words.
    audience : Audience
        Who will hear it; outside only where a person has released counts by level as well.
    can_check : bool
        Whether the unit says under which names it has published.
    """
    whole = [standing for standing in found.standings if standing.stratum == OVERALL]
    first, *others = whole or found.standings
    needed = [count_sentence(first, plan), limit_sentence(first), unknown_sentence(first)]
    if first.reason is Reason.NO_FOLLOW_UP:
        needed.append(NO_FOLLOW_UP)
    needed.append(ascertainment_sentence(found.ascertainment, plan.population))
    needed = [sentence for sentence in needed if sentence]
    more = [
        primary_sentence(found.standings, plan, found.wholes) if plan.audit.primary else "",
        _place(found.whole(first.outcome), plan) if first.stratum == OVERALL else "",
        *alarm_sentences(found.alarms, can_check=can_check),
        *(count_sentence(standing, plan) for standing in others if whole),
    ]
    never = NEVER_INSIDE if audience is Audience.INSIDE else NEVER_RELEASED
    said = (*needed, *(sentence for sentence in more if sentence))
    return Prompt(QUESTION, said, never, len(needed))


def limit_sentence(standing: Standing) -> str:
    """Say how far the unwelcome side of a count's interval reaches; empty without a share."""
    if standing.one_sided is not None:
        return one_sided_sentence(standing)
    if standing.interval is None:
        return ""
    if standing.better is Better.FEWER:
        return f"True rates up to {percent(standing.interval.high)} are not excluded."
    return f"True rates down to {percent(standing.interval.low)} are not excluded."


def _place(whole: Standardisation | None, plan: Plan) -> str:
    if whole is None:
        return ""
    if whole.found is None:
        return " ".join(refused_sentences(whole, plan))
    return whole_verdict_sentence(whole, whole.found)


def outside_prompt(
    told: Sequence[OutsideCount], counted_cases: int, expected: int, plan: Plan
) -> Prompt:
    """Say what of a unit's counts may be told outside, and nothing else of the unit.

    Parameters
    ----------
    told : sequence of OutsideCount
        Its whole counts, as they may be told.
    counted_cases, expected : int
        Cases counted, and cases there should be; both are told rounded.
    plan : Plan
        The plan, for its words.
    """
    groups = [outside_sentences(item, plan) for item in told]
    cases = cases_sentence(counted_cases, expected, plan.population)
    if not groups:
        return Prompt(QUESTION, (cases,), NEVER_OUTSIDE)
    first, *others = groups
    # A count and its verdict stay together, or are left off together.
    more = dict.fromkeys(" ".join(group) for group in others)
    said = (*first, cases, *more)
    return Prompt(QUESTION, said, NEVER_OUTSIDE, len(first) + 1)
