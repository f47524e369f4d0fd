"""From units' own figures to their performance funnel around a fixed target."""

from collections.abc import Sequence

from evsyn.audit.funnel import FixedTarget, Flag, cases_for_high_flag, cases_for_low_flag
from evsyn.audit.overdispersion import Overdispersion, overdispersion
from evsyn.audit.reasons import Reason
from evsyn.audit.standing import Standing
from evsyn.cells.cell import Question
from evsyn.extraction.load import CheckedUnit
from evsyn.extraction.plan import Plan
from evsyn.extraction.review import Review
from evsyn.figures.funnel import (
    FunnelContent,
    FunnelPoint,
    FunnelWords,
    cases_end,
    flag_spot,
    target_curves,
    target_flags,
)
from evsyn.reporting.told_counts import (
    Tell,
    ToldCount,
    exactly,
    funnel_notes,
    invented_of,
    periods_of,
    told_counts,
)
from evsyn.terms import Better
from evsyn.wording.audience import INSIDE_MARK, INSIDE_SHORT
from evsyn.wording.funnel import (
    bare_caption,
    flag_sentence,
    flag_words,
    flagged_from,
    funnel_title,
    hidden_sentence,
    level_words,
    no_unit_counts,
    nothing_above,
    nothing_below,
    point_words,
    short_bare_caption,
    short_target_caption,
    target_caption,
    target_subtitle,
    window_sentence,
)
from evsyn.wording.status import status_line

#: That so few cases lie beyond no line needs no words.
_PLAIN = 2


def target_funnel_of(
    review: Review,
    units: Sequence[CheckedUnit],
    outcome: str,
    *,
    tell: Tell = exactly,
    mark: str = INSIDE_MARK,
    short_mark: str = INSIDE_SHORT,
) -> FunnelContent:
    """Return what a performance funnel around the plan's fixed target says.

    Parameters
    ----------
    review : Review
        The review whose plan holds the target.
    units : sequence of CheckedUnit
        Units, or periods of one; each with its whole.
    outcome : str
        An outcome with a target in ``audit.targets`` of the plan.
    tell : callable
        How far each count is told; all else drawn and said depends on what it returns alone.
    mark, short_mark : str
        Who may see the figure; the second for slides.

    Raises
    ------
    KeyError
        If the plan holds no target for the outcome.
    """
    plan = review.plan
    named = plan.audit.targets[outcome]
    target = FixedTarget(named.rate, plan.audit.alert, plan.audit.alarm)
    declared = plan.outcomes[outcome]
    found = told_counts(review, units, {}, Question(outcome), tell)
    late = [(item.name, Reason.NO_FOLLOW_UP) for item in found if _is_no_share(item.standing)]
    shares = [item for item in found if not _is_no_share(item.standing)]
    shown = [item for item in shares if item.standing.basis == declared.denominators[0]]
    others = [(item.name, Reason.BASIS) for item in shares if item not in shown]
    # A line number tells what stands above it in the file, so it goes with counts told in full.
    is_sourced = tell is exactly
    points = tuple(_flagged(item, target, declared.better, is_sourced) for item in shown)
    # Lines through the counts that a hidden one may be would pass for a finding about it.
    is_hidden = any(len(item.own.possible) > 1 for item in shown)
    is_flagged = any(point.said for point in points)
    spread, end = _spread(shown, target), cases_end(item.own for item in shown)
    if is_hidden:
        caption, short = bare_caption(target, is_flagged=is_flagged), short_bare_caption()
    else:
        caption = target_caption(target, len(points), spread)
        short = short_target_caption(target, len(points), spread)
    is_alone = len(points) == 1
    notes = [
        *_hidden(shown),
        *(() if is_hidden else _beyond(shown, target, declared.better)),
        _windows(shown, plan, outcome),
    ]
    is_several = is_hidden and is_flagged
    around = target_subtitle(named.rate, named.according_to, named.decided_on)
    return FunnelContent(
        title=funnel_title(declared.label, ""),
        subtitle=f"{periods_of(units)} {around}".strip(),
        better=declared.better,
        centre=target.rate,
        points=points,
        cases_end=end,
        status_line=status_line(review),
        caption=caption,
        short_caption=short,
        invented=invented_of(review, units),
        words=FunnelWords(
            alert_key=f"alert line, {level_words(target.alert)}",
            alarm_key=f"alarm line, {level_words(target.alarm)}",
        ),
        curves=() if is_hidden else target_curves(target, end, is_alone=is_alone, wide=spread),
        notes=funnel_notes(notes, points, [*late, *others], is_several=is_several),
        nothing="" if shown else no_unit_counts(plan.denominators[declared.denominators[0]]),
        mark=mark,
        short_mark=short_mark,
    )


def _beyond(shown: Sequence[ToldCount], target: FixedTarget, better: Better) -> list[str]:
    """Say from which counts a unit alone is flagged, and where no result can lie beyond a line."""
    alone = [_flagged_from(shown[0], target, better)] if len(shown) == 1 else []
    return [*alone, *_ends(target)]


def _windows(shown: Sequence[ToldCount], plan: Plan, outcome: str) -> str:
    """Name the units that looked over another window than the plan's target; else empty."""
    windows = plan.outcomes[outcome].windows
    if not windows:
        return ""
    strangers = [item.name for item in shown if item.standing.window != windows[0]]
    return window_sentence(strangers, plan.windows[windows[0]].label)


def _is_no_share(standing: Standing) -> bool:
    return standing.reason is Reason.NO_FOLLOW_UP


def _flagged(item: ToldCount, target: FixedTarget, better: Better, is_sourced: bool) -> FunnelPoint:
    found = target_flags(item.own, target)
    return FunnelPoint(
        item.name,
        item.own,
        point_words(item.own.possible, item.own.total),
        said="" if found is None else flag_words(found),
        sentence="" if found is None else flag_sentence(found, better, is_exact=item.own.is_exact),
        spot=flag_spot(found),
        source=item.standing.sources[0] if is_sourced else None,
    )


def _spread(shown: Sequence[ToldCount], target: FixedTarget) -> Overdispersion | None:
    """Return how much units differ; periods of one unit and counts not told exactly do not tell."""
    if len({item.unit for item in shown}) < len(shown):
        return None
    if not all(item.own.is_exact for item in shown):
        return None
    events = [item.standing.events for item in shown]
    return overdispersion(events, [item.standing.total for item in shown], target.rate)


def _hidden(shown: Sequence[ToldCount]) -> list[str]:
    """Say of each bracket what it is; once where two are alike."""
    said = [
        hidden_sentence(item.own.possible, item.own.total)
        for item in shown
        if item.own.total is not None and len(item.own.possible) > 1
    ]
    return list(dict.fromkeys(said))


def _flagged_from(item: ToldCount, target: FixedTarget, better: Better) -> str:
    total = item.own.total
    if total is None:
        return ""
    alert, alarm = (target.flagged(total, flag) for flag in (Flag.ALERT, Flag.ALARM))
    return flagged_from(total, (alert[0], alarm[0]), (alert[1], alarm[1]), better=better)


def _ends(target: FixedTarget) -> list[str]:
    """Say up to how many cases no result can lie beyond the lines, where that is not plain."""
    said = []
    for cases, words in ((cases_for_low_flag, nothing_below), (cases_for_high_flag, nothing_above)):
        alert = cases(target.rate, target.tail(Flag.ALERT))
        alarm = cases(target.rate, target.tail(Flag.ALARM))
        if alert > _PLAIN:
            said.append(words(alert, alarm))
    return said
