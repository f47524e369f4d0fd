"""From units' own figures to their performance funnel around the range of ordinary new units."""

from collections.abc import Sequence
from dataclasses import replace

from evsyn.audit.predictive import knows_spread, predictive
from evsyn.audit.range_by_size import range_by_size
from evsyn.audit.verdict import Verdict
from evsyn.cells.cell import Question
from evsyn.extraction.load import CheckedUnit
from evsyn.extraction.plan import Plan
from evsyn.extraction.review import Review
from evsyn.figures.funnel import (
    FunnelContent,
    FunnelPoint,
    FunnelWords,
    Spot,
    cases_end,
    range_band,
    sizes_to,
)
from evsyn.figures.strip import verdicts
from evsyn.pooling.review import answer_questions, group_label
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
from evsyn.wording.funnel import funnel_title, point_words
from evsyn.wording.funnel_range import (
    beyond_sentence,
    beyond_words,
    range_caption,
    range_from,
    range_subtitle,
    short_range_caption,
)
from evsyn.wording.status import status_line
from evsyn.wording.strip import beside_words, no_comparison_words


def range_funnel_of(
    review: Review,
    units: Sequence[CheckedUnit],
    question: Question,
    *,
    tell: Tell = exactly,
    mark: str = INSIDE_MARK,
    short_mark: str = INSIDE_SHORT,
) -> FunnelContent:
    """Return what a performance funnel around the range of ordinary new units says.

    Parameters
    ----------
    review : Review
        The review the units are set against; the own studies of all of them are left out.
    units : sequence of CheckedUnit
        Units, or periods of one.
    question : Question
        Outcome and level; a unit's whole is not compared, and the page then says why.
    tell, mark, short_mark
        As in a funnel around a target.

    Raises
    ------
    ValueError
        If no unit reports such a count.
    """
    plan, declared = review.plan, review.plan.outcomes[question.outcome]
    own_studies = {name for checked in units for name in checked.unit.own_studies}
    pooled = answer_questions(review, [question], without=sorted(own_studies))
    found = told_counts(review, units, pooled, question, tell)
    if not found:
        raise ValueError("no unit reports such a count, or none that may be shown")
    table = pooled[question]
    reading, k = table.answer.reading, table.answer.k
    compared = [item for item in found if item.standing.comparison is not None]
    content = FunnelContent(
        title=funnel_title(declared.label, group_label(plan, question)),
        subtitle="",
        better=declared.better,
        centre=None,
        points=(),
        cases_end=cases_end(item.own for item in compared),
        status_line=status_line(review),
        caption=range_caption(),
        short_caption=short_range_caption(),
        invented=invented_of(review, units),
        words=FunnelWords(),
        mark=mark,
        short_mark=short_mark,
    )
    benchmark = found[0].standing.benchmark
    if not compared or reading is None or benchmark is None or benchmark.typical is None:
        return replace(content, nothing=" ".join(_why_nothing(item, plan) for item in found))
    is_judged = table.answer.show.verdict and knows_spread(reading)
    spread = predictive(reading, k)
    beside = list(dict.fromkeys(w for item in compared for w in beside_words(item.standing)))
    rest = [(item.name, item.standing.reason) for item in found if item not in compared]
    points = tuple(_placed(item, declared.better) for item in compared)
    notes = [_range_from(compared[0], declared.better)] if len(compared) == 1 else []
    is_several = any(len(item.own.possible) > 1 for item in compared)
    typical = content.words.typical if benchmark.rho is None else content.words.mean
    around = range_subtitle(
        k, benchmark.total, benchmark.typical, beside, typical=typical, is_judged=is_judged
    )
    return replace(
        content,
        subtitle=f"{periods_of(units)} {around}".strip(),
        centre=benchmark.typical,
        points=points,
        words=FunnelWords(typical=typical),
        band=range_band(range_by_size(spread, sizes_to(content.cases_end)), is_judged=is_judged),
        notes=funnel_notes(notes, points, rest, is_several=is_several),
    )


def _placed(item: ToldCount, better: Better) -> FunnelPoint:
    own, comparison = item.own, item.standing.comparison
    told: set[Verdict] = set()
    if comparison is not None and own.total is not None:
        told = set(verdicts(comparison.limits, own))
    verdict = told.pop() if len(told) == 1 else Verdict.NONE
    said = beyond_words(verdict)
    return FunnelPoint(
        item.name,
        own,
        point_words(own.possible, own.total),
        said=said,
        sentence=beyond_sentence(verdict, better),
        spot=Spot.BEYOND if said else Spot.PLAIN,
        source=item.standing.sources[0] if item.own.is_exact else None,
    )


def _range_from(item: ToldCount, better: Better) -> str:
    comparison, total = item.standing.comparison, item.own.total
    if total is None or comparison is None or not comparison.judged:
        return ""
    return range_from(total, comparison.limits, better=better)


def _why_nothing(item: ToldCount, plan: Plan) -> str:
    told = point_words(item.own.possible, item.own.total)
    why = no_comparison_words(item.standing, plan, is_exact=item.own.is_exact)
    return f"{item.name}: {told}. {why}"
