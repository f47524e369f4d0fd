"""What the speaker may be asked: sentences, counts with their places, and disputed counts."""

from collections.abc import Iterable, Sequence

from evsyn.pooling.disputed import disputed_pool
from evsyn.reporting.report.content import Answered, OutcomeReport, ReportContent
from evsyn.wording.disputed import (
    StudySaid,
    comes_in_lines,
    disputed_sentence,
    otherwise_lines,
    studies_said,
)
from evsyn.wording.numbers import count
from evsyn.wording.report_slides import DISPUTED_KEY, disputed_line, source_line


def answer_notes(content: ReportContent, item: OutcomeReport) -> tuple[str, ...]:
    """Return what stands behind the answer to one outcome.

    Parameters
    ----------
    content : ReportContent
        What the report says.
    item : OutcomeReport
        The outcome.
    """
    said = [item.overall.sentence, item.wanted]
    for stratum in item.strata:
        said += [answered.sentence for answered in stratum.answers]
        said.append(f"{stratum.label}: {stratum.sentence}")
    return (
        *said,
        *_disputed(content, item),
        content.methods,
        *rows_notes((item.overall,)),
    )


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
