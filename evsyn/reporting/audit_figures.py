"""From a unit's own figures to its count strips."""

from collections.abc import Sequence
from dataclasses import replace

from evsyn.audit.looks import looks
from evsyn.audit.predictive import predictive, same_rate
from evsyn.audit.standing import Standing, standings
from evsyn.audit.unit_audit import unit_answers
from evsyn.extraction.load import CheckedUnit
from evsyn.extraction.plan import Plan
from evsyn.extraction.review import Review
from evsyn.figures.own_count import OwnCount
from evsyn.figures.strip import Strip, StripContent, columns, verdicts
from evsyn.pooling.review import Answers
from evsyn.pooling.tables import PooledTable
from evsyn.reporting.told_counts import Tell, exactly, invented_of
from evsyn.wording.audience import INSIDE_MARK, INSIDE_SHORT
from evsyn.wording.audit import group_words, looks_sentence
from evsyn.wording.status import status_line
from evsyn.wording.strip import (
    STRIP_CAPTION,
    STRIP_CAPTION_SHORT,
    StripWords,
    fewer_words,
    more_words,
    no_comparison_words,
    no_verdict_words,
    not_drawn_words,
    noticed_words,
    own_words,
    short_noticed_words,
    size_words,
    strip_subtitle,
    strip_title,
    verdict_words,
)


def strip_of(
    review: Review,
    checked: CheckedUnit,
    outcome: str | None = None,
    *,
    stratum: str | None = None,
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
    plan, answers = review.plan, unit_answers(review, checked.unit)
    told: list[tuple[Standing, OwnCount]] = []
    for standing in standings(checked.unit, answers, plan):
        wanted = outcome in (None, standing.outcome) and stratum in (None, standing.stratum)
        own = tell(standing) if wanted else None
        if own is not None:
            told.append((standing, own))
    if not told:
        raise ValueError("the unit reports no such count, or none that may be shown")
    placed = [standing for standing, _ in told]
    strips = tuple(
        _strip(standing, own, answers, plan, _strip_title(standing, placed, plan, outcome))
        for standing, own in told
    )
    remarks = [STRIP_CAPTION]
    found = looks(placed)
    if found.made > 1 and all(own.is_exact for _, own in told):
        remarks.append(looks_sentence(found))
    return StripContent(
        title=_title(strips, plan, outcome),
        subtitle=strip_subtitle(checked.unit, plan, placed, is_dated=is_dated),
        strips=strips,
        status_line=status_line(review),
        caption=" ".join([*remarks, mark]),
        short_caption=" ".join([STRIP_CAPTION_SHORT, short_mark]),
        invented=invented_of(review, [checked]),
        words=StripWords(),
    )


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


def _strip(standing: Standing, own: OwnCount, answers: Answers, plan: Plan, title: str) -> Strip:
    hue = list(plan.outcomes).index(standing.outcome)
    source = standing.sources[0] if standing.sources else None
    said = own_words(own.possible, own.total)
    if standing.comparison is None or own.total is None:
        why = no_comparison_words(standing, plan, is_exact=own.is_exact)
        why = why if own.total is not None else ""
        return Strip(title, own, said, why, hue=hue, source=source)
    strip = _compared(standing, own, answers[standing.question], title, said)
    return replace(strip, hue=hue)


def _title(strips: Sequence[Strip], plan: Plan, outcome: str | None) -> str:
    label = "" if outcome is None else plan.outcomes[outcome].label
    if len(strips) == 1 and label:
        return strip_title(label, strips[0].title, strips[0].own_words)
    return strip_title(label, "", "")


def _compared(
    standing: Standing, own: OwnCount, pooled: PooledTable, title: str, said: str
) -> Strip:
    comparison, answer = standing.comparison, pooled.answer
    if comparison is None or answer.reading is None:
        raise ValueError("nothing is compared here")
    ordinary = predictive(answer.reading, answer.k).pmf(standing.total)
    average = same_rate(answer.reading, answer.k).pmf(standing.total)
    limits, better = comparison.limits, standing.better
    drawn = columns(ordinary, average, limits, own, is_judged=comparison.judged)
    # Why a judged count gets no verdict depends on the count itself.
    reason = standing.reason if own.is_exact or not comparison.judged else None
    if reason is not None:
        sentence = brief = no_verdict_words(reason, limits, answer.k)
    else:
        verdict = verdict_words(verdicts(ordinary, limits, own), limits, better)
        sentence = f"{verdict} {noticed_words(limits, comparison.power, better)}"
        brief = f"{verdict} {short_noticed_words(limits, comparison.power, better)}".strip()
    beyond = not_drawn_words(
        drawn.first,
        drawn.last,
        standing.total,
        float(ordinary[: drawn.first].sum()),
        float(ordinary[drawn.last + 1 :].sum()),
    )
    size = size_words(standing, answer.k)
    return Strip(
        title,
        own,
        said,
        sentence,
        brief,
        columns=drawn,
        size=f"{size}; {beyond}" if beyond else size,
        more=more_words(limits, standing.total),
        fewer=fewer_words(limits),
        source=standing.sources[0] if standing.sources else None,
    )
