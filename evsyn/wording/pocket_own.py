"""Our own count on the pocket card, in full or as it may be told outside."""

from collections.abc import Sequence

from evsyn.audit.outside import OutsideCount
from evsyn.audit.reasons import Reason
from evsyn.audit.standardised import Standardisation
from evsyn.audit.standing import Standing
from evsyn.audit.unit_audit import UnitAudit
from evsyn.audit.verdict import Verdict
from evsyn.extraction.plan import Plan
from evsyn.terms import OVERALL, Audience, Better
from evsyn.wording.audit import (
    WITHIN_MEANS,
    ascertainment_sentence,
    count_words,
    group_words,
    one_sided_sentence,
    when_words,
)
from evsyn.wording.audit_summary import primary_sentence
from evsyn.wording.audit_unknown import NO_FOLLOW_UP, unknown_sentence
from evsyn.wording.audit_verdict import marks
from evsyn.wording.chances import noticed_words, range_words
from evsyn.wording.late_events import late_sentence
from evsyn.wording.numbers import count, percent, span
from evsyn.wording.outside import cases_sentence, outside_sentences
from evsyn.wording.own_series import alarm_sentences
from evsyn.wording.pocket import Prompt
from evsyn.wording.standardised import (
    refused_sentences,
    whole_risk_words,
    whole_verdict_sentence,
)

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
    needed = [spoken_sentence(first, plan)]
    if audience is Audience.INSIDE:
        needed.append(late_sentence(found.unit, first.outcome, plan))
    needed.append(unknown_sentence(first))
    if first.reason is Reason.NO_FOLLOW_UP:
        needed.append(NO_FOLLOW_UP)
    needed.append(ascertainment_sentence(found.ascertainment, plan.population))
    needed = [sentence for sentence in needed if sentence]
    more = [
        # What may be ours and stands on the other side is the last to be left off.
        *alarm_sentences(found.alarms, can_check=can_check, has_cure=False),
        _verdicts(found, first, plan),
        others_sentence(others, plan) if whole else "",
    ]
    never = NEVER_INSIDE if audience is Audience.INSIDE else NEVER_RELEASED
    said = (*needed, *(sentence for sentence in more if sentence))
    return Prompt(QUESTION, said, never, len(needed))


def _verdicts(found: UnitAudit, first: Standing, plan: Plan) -> str:
    """Say the verdicts with what so few cases could have shown: kept, or left off, together."""
    primary = primary_sentence(found.standings, plan, found.wholes) if plan.audit.primary else ""
    is_whole = first.stratum == OVERALL
    place = place_sentence(found.whole(first.outcome), plan) if is_whole else ""
    return " ".join(part for part in (primary, place) if part)


def spoken_sentence(standing: Standing, plan: Plan) -> str:
    """Say a count and, at once, how far the unwelcome side of its interval reaches."""
    group = f"{plan.outcomes[standing.outcome].label}, {group_words(standing, plan)}"
    said = f"{group}: {count_words(standing, plan)}"
    if standing.one_sided is not None:
        return f"{said}. {one_sided_sentence(standing)}"
    if standing.interval is None:
        return f"{said}."
    low, high = standing.interval.low, standing.interval.high
    is_fewer = standing.better is Better.FEWER
    reach = f"up to {percent(high)}" if is_fewer else f"down to {percent(low)}"
    return f"{said}; true rates {reach} are not excluded (exact 95% interval {span(low, high)})."


def others_sentence(standings: Sequence[Standing], plan: Plan) -> str:
    """Say further counts with their intervals, one after the other; empty without any."""
    told = []
    for standing in standings:
        label = plan.outcomes[standing.outcome].label
        name = f"{label[:1].lower()}{label[1:]}{when_words(standing, plan)}"
        said = f"{name}, {count(standing.events, standing.total)}"
        if standing.interval is not None:
            limits = span(standing.interval.low, standing.interval.high)
            said += f" ({percent(standing.events / standing.total)}; exact {limits})"
        told.append(said)
    return f"Our other counts: {'; '.join(told)}." if told else ""


def place_sentence(whole: Standardisation | None, plan: Plan) -> str:
    """Say where a whole count lies, and what so few cases could have shown; empty without one."""
    if whole is None:
        return ""
    if whole.found is None:
        return " ".join(refused_sentences(whole, plan))
    found = whole.found
    if found.verdict is not Verdict.WITHIN or found.notice is None:
        return whole_verdict_sentence(whole, found)
    # A verdict never stands without what the cases could have shown.
    differs = marks([item for level in found.levels for item in level.differs])
    beside = f" ({differs.removeprefix('; ')})" if differs else ""
    return (
        f"{count(whole.events, whole.total)} is within the range of {range_words(found.limits)} "
        f"that ordinary new units with this case mix show{beside}; "
        f"{whole_risk_words(found.notice, whole.better)} "
        f"{noticed_words(found.notice, found.limits, whole.better)}."
    )


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
