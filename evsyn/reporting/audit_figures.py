"""From a unit's own figures to its count strips."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from evsyn.audit.count_chances import CountChances, level_chances, whole_chances
from evsyn.audit.looks import looks
from evsyn.audit.standardisation import standardisation
from evsyn.audit.standardised import Standardisation
from evsyn.audit.standing import Standing, standings
from evsyn.audit.unit_audit import unit_answers
from evsyn.extraction.load import CheckedUnit
from evsyn.extraction.plan import Plan
from evsyn.extraction.review import Review
from evsyn.figures.own_count import OwnCount
from evsyn.figures.strip import Strip, StripContent, columns, verdicts
from evsyn.pooling.review import Answers
from evsyn.reporting.told_counts import Tell, exactly, invented_of
from evsyn.terms import OVERALL, Better
from evsyn.wording.audience import INSIDE_MARK, INSIDE_SHORT
from evsyn.wording.audit import group_words, looks_sentence
from evsyn.wording.status import status_line
from evsyn.wording.strip import (
    NOT_ALL_KNOWN,
    STRIP_CAPTION,
    STRIP_CAPTION_SHORT,
    StripWords,
    fewer_words,
    more_words,
    no_comparison_words,
    no_verdict_words,
    not_drawn_words,
    own_words,
    short_size_words,
    short_whole_size_words,
    size_words,
    strip_subtitle,
    strip_title,
    verdict_words,
    whole_size_words,
)
from evsyn.wording.strip_risk import risk_sentence, short_risk_sentence


def strip_of(
    review: Review,
    checked: CheckedUnit,
    outcome: str | None = None,
    *,
    stratum: str | None = None,
    with_whole: bool = False,
    tell: Tell = exactly,
    mark: str = INSIDE_MARK,
    short_mark: str = INSIDE_SHORT,
    is_dated: bool = True,
) -> StripContent:
    """Return what the count strips of a unit say.

    Parameters
    ----------
    review : Review
        The review it is set against.
    checked : CheckedUnit
        The unit.
    outcome : str, optional
        One outcome of the plan; by default all that the unit reports.
    stratum : str, optional
        One stratum of the plan, for its levels alone; by default all, and the unit's whole.
    with_whole : bool
        Whether the unit's whole stands over the levels of one stratum as well.
    tell : callable
        How far each count is told; all else drawn and said depends on what it returns alone.
    mark, short_mark : str
        Who may see the figure; the second for slides.
    is_dated : bool
        Whether the unit's period stands in the subtitle.

    Raises
    ------
    ValueError
        If no count is left to be drawn.
    """
    plan, unit = review.plan, checked.unit
    answers = unit_answers(review, unit)
    told: list[tuple[Standing, OwnCount]] = []
    for standing in standings(unit, answers, plan):
        is_asked = stratum in (None, standing.stratum)
        is_asked = is_asked or (with_whole and standing.stratum == OVERALL)
        wanted = is_asked and outcome in (None, standing.outcome)
        own = tell(standing) if wanted else None
        if own is not None:
            told.append((standing, own))
    if not any(stratum in (None, standing.stratum) for standing, _ in told):
        raise ValueError("the unit reports no such count, or none that may be shown")
    # The whole is what is asked first; its levels follow.
    outcomes = list(plan.outcomes)
    told.sort(key=lambda item: (outcomes.index(item[0].outcome), item[0].stratum != OVERALL))
    placed = [standing for standing, _ in told]
    whole = {
        standing.outcome: standardisation(unit, plan, standing.outcome, answers)
        for standing in placed
        if standing.stratum == OVERALL
    }
    strips = []
    for standing, own in told:
        title = _strip_title(standing, placed, plan, outcome)
        held = whole.get(standing.outcome) if standing.stratum == OVERALL else None
        strips.append(_strip(_Count(standing, held, own, title), answers, plan))
    remarks = [STRIP_CAPTION]
    found = looks(placed, [item for item in whole.values() if item is not None])
    if found.made > 1 and all(own.is_exact for _, own in told):
        remarks.append(looks_sentence(found))
    return StripContent(
        title=_title(strips, plan, outcome),
        subtitle=strip_subtitle(unit, plan, placed, is_dated=is_dated),
        strips=tuple(strips),
        status_line=status_line(review),
        caption=" ".join(remarks),
        short_caption=STRIP_CAPTION_SHORT,
        invented=invented_of(review, [checked]),
        words=StripWords(),
        mark=mark,
        short_mark=short_mark,
    )


@dataclass(frozen=True, slots=True)
class _Count:
    """One count to draw: its standing, the comparison of a whole, and how far it is told."""

    standing: Standing
    whole: Standardisation | None
    own: OwnCount
    title: str


def _strip_title(
    standing: Standing, placed: Sequence[Standing], plan: Plan, outcome: str | None
) -> str:
    group = group_words(standing, plan)
    label = plan.outcomes[standing.outcome].label
    title = f"{label}: {group}" if outcome is None else f"{group[:1].upper()}{group[1:]}"
    alike = [other for other in placed if other.question == standing.question]
    if len(alike) == 1:
        return title
    return f"{title}, of {plan.denominators.get(standing.basis, standing.basis)}"


def _strip(item: _Count, answers: Answers, plan: Plan) -> Strip:
    standing, own = item.standing, item.own
    strip = Strip(
        title=item.title,
        own=own,
        own_words=own_words(own.possible, own.total),
        sentence="",
        hue=list(plan.outcomes).index(standing.outcome),
        source=standing.sources[0] if standing.sources else None,
    )
    if own.total is None:
        return strip
    if own.total != standing.total:
        return replace(strip, sentence=NOT_ALL_KNOWN)
    found = None if item.whole is None else item.whole.found
    if found is not None:
        chances: CountChances | None = whole_chances(found, answers)
        size = whole_size_words(standing, found, plan)
        brief = short_whole_size_words(standing, found, plan)
    else:
        pooled = answers[standing.question]
        chances = level_chances(standing, pooled)
        size = size_words(standing, pooled.answer.k)
        brief = short_size_words(standing, pooled.answer.k)
    if chances is None:
        why = no_comparison_words(standing, plan, item.whole, is_exact=own.is_exact)
        return replace(strip, sentence=why)
    return _drawn(replace(strip, short_size=brief), chances, size, standing.better)


def _title(strips: Sequence[Strip], plan: Plan, outcome: str | None) -> str:
    label = "" if outcome is None else plan.outcomes[outcome].label
    if len(strips) == 1 and label:
        return strip_title(label, strips[0].title, strips[0].own_words)
    return strip_title(label, "", "")


def _drawn(strip: Strip, chances: CountChances, size: str, better: Better) -> Strip:
    own, limits, ordinary = strip.own, chances.limits, chances.ordinary
    total = ordinary.size - 1
    drawn = columns(ordinary, chances.average, limits, own, is_judged=chances.judged)
    # Why a count that could be judged gets no verdict depends on the count itself.
    reason = chances.reason if own.is_exact or not chances.judged else None
    if reason is not None:
        sentence = brief = no_verdict_words(reason, limits)
    else:
        verdict = verdict_words(verdicts(limits, own), limits, better)
        sentence = f"{verdict} {risk_sentence(chances.notice, limits, better)}"
        brief = f"{verdict} {short_risk_sentence(chances.notice, limits, better)}".strip()
    below, above = ordinary[: drawn.first].sum(), ordinary[drawn.last + 1 :].sum()
    beyond = not_drawn_words(drawn.first, drawn.last, total, float(below), float(above))
    return replace(
        strip,
        sentence=sentence,
        short_sentence=brief,
        columns=drawn,
        size="; ".join(part for part in (size, beyond) if part),
        more=more_words(limits, total),
        fewer=fewer_words(limits),
    )
