"""What the speaker may be asked: sentences, counts with their places, and disputed counts."""

from collections.abc import Iterable, Sequence

from evsyn.cells.levels import level_names
from evsyn.pooling.disputed import disputed_pool
from evsyn.reporting.report.content import Answered, OutcomeReport, ReportContent, StratumReport
from evsyn.terms import UNPLACED
from evsyn.wording.disputed import (
    StudySaid,
    comes_in_lines,
    disputed_sentence,
    otherwise_lines,
    studies_said,
)
from evsyn.wording.numbers import count
from evsyn.wording.pocket_pool import never_sentence, spoken_sentence
from evsyn.wording.pocket_strata import levels_sentence, short_difference
from evsyn.wording.report_slides import (
    DISPUTED_KEY,
    FOR_QUESTIONS,
    disputed_line,
    source_line,
    spoken_never,
)
from evsyn.wording.strata import untold_sentence


def answer_notes(
    content: ReportContent, item: OutcomeReport, strata: Sequence[StratumReport]
) -> tuple[str, ...]:
    """Return what to say of one outcome in a few lines, then what stands behind it.

    Parameters
    ----------
    content : ReportContent
        What the report says.
    item : OutcomeReport
        The outcome.
    strata : sequence of StratumReport
        The strata that papers state; the first is the one drawn.
    """
    answer = item.overall.pooled.answer
    first = [spoken_sentence(item.label, answer) or item.overall.sentence]
    for stratum in strata[:1]:
        first += _spoken_levels(content, stratum)
    untold = (
        untold_sentence(content.review, item.name, one.name, content.answers) for one in strata
    )
    first += [*dict.fromkeys(untold), spoken_never(never_sentence(answer))]
    said = [item.overall.sentence, item.wanted]
    for stratum in item.strata:
        said += [answered.sentence for answered in stratum.answers]
        said.append(f"{stratum.label}: {stratum.sentence}")
    return _in_order(first, (*said, *_disputed(content, item), content.methods))


def levels_notes(content: ReportContent, stratum: StratumReport) -> tuple[str, ...]:
    """Return what to say of the levels of one stratum, then what stands behind it."""
    said = (*(answered.sentence for answered in stratum.answers), stratum.sentence)
    return _in_order(_spoken_levels(content, stratum), said)


def _spoken_levels(content: ReportContent, stratum: StratumReport) -> list[str]:
    named = {
        f"{one.title[:1].lower()}{one.title[1:]}": one.pooled.answer
        for one in stratum.answers
        if one.question.level != UNPLACED
    }
    said = [levels_sentence(named)]
    if stratum.difference.test is not None:
        words = level_names(content.review.plan.strata[stratum.name])
        said.append(short_difference(stratum.difference, words))
    return said


def _in_order(first: Iterable[str], behind: Iterable[str]) -> tuple[str, ...]:
    """Put what is spoken first, and the rest under a line of its own."""
    return (*(line for line in first if line), FOR_QUESTIONS, *(line for line in behind if line))


def rows_notes(answers: Iterable[Answered]) -> tuple[str, ...]:
    """Return every count of some pools with its file, line and place in the paper."""
    said: list[str] = []
    for answered in answers:
        table = answered.pooled.table
        said.append(f"{answered.title}:")
        said += [
            source_line(cell.label, cell.events, cell.total, cell.sources) for cell in table.cells
        ]
        said += [
            f"Left out: {one.label} {count(one.events, one.total)}, {one.source}: {one.reason}."
            for one in table.left_out
        ]
    return tuple(said)


def _disputed(content: ReportContent, item: OutcomeReport) -> Sequence[str]:
    """Say what one disputed count, or one study left out, would change."""
    named = content.review.plan.audit.targets.get(item.name)
    target = None if named is None else named.rate
    pooled = item.overall.pooled
    if not pooled.answer.show.pooled:
        return ()
    said = studies_said(disputed_pool(content.review, pooled), target=target)
    return (
        disputed_sentence(said, target=target),
        *otherwise_lines(said),
        *comes_in_lines(said),
        DISPUTED_KEY,
        *(disputed_line(one.study) for one in sorted(said, key=_least_moving_last)),
    )


def _least_moving_last(said: StudySaid) -> float:
    return -said.study.largest_shift
