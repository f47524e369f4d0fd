"""What if a count were disputed: the row to read with each count a little off, or left out."""

from evsyn.extraction.review import Review
from evsyn.pooling.disputed import MOST_EVENTS, disputed_pool
from evsyn.reporting.page.markup import (
    Html,
    element,
    folded,
    joined,
    listing,
    paragraphs,
    section,
    words,
)
from evsyn.reporting.page.order import primary_first
from evsyn.reporting.page.tables import table
from evsyn.reporting.pool_disputed import disputed_row, said_of, target_of
from evsyn.reporting.report.content import OutcomeReport, ReportContent
from evsyn.wording import page_disputed as say
from evsyn.wording.disputed import comes_in_lines, disputed_sentence, otherwise_lines
from evsyn.wording.numbers import cell
from evsyn.wording.report_page import DISPUTED

#: Studies by studies, over all outcomes: the time that cells take, about half a minute.
MOST_WORK = 50_000
STEPS = tuple(by for by in range(-MOST_EVENTS, MOST_EVENTS + 1) if by)


def disputed_section(content: ReportContent, *, most: int = MOST_WORK) -> Html:
    """Return what one disputed count could change, outcome by outcome, each folded.

    Parameters
    ----------
    content : ReportContent
        What the report says.
    most : int
        Studies times studies, over all outcomes; the plan's primary outcome stands whatever it
        takes, the others as far as this allows.
    """
    ordered = primary_first(content)
    pooled = [item for item in ordered if item.overall.pooled.answer.show.pooled]
    if not pooled:
        return Html("")
    parts: list[Html] = []
    late: list[str] = []
    for item in pooled:
        most -= item.overall.pooled.answer.k**2
        if parts and most < 0:
            late.append(item.label)
        else:
            parts.append(_outcome(content.review, item, is_open=not parts))
    refused = tuple(item.label for item in ordered if item not in pooled)
    return section(
        "disputed",
        DISPUTED,
        paragraphs(say.DISPUTED_READ),
        *parts,
        paragraphs(
            say.left_to_the_command(tuple(late)),
            say.not_pooled_here(refused),
            say.disputed_elsewhere(content.review.plan.review, pooled[0].name),
        ),
    )


def _outcome(review: Review, item: OutcomeReport, *, is_open: bool) -> Html:
    pool = disputed_pool(review, item.overall.pooled)
    said = said_of(review, pool)
    ordered = sorted(said, key=lambda one: -one.study.largest_shift)
    rows = [
        [*map(_cell, disputed_row(one, STEPS, 2)), words(say.fewest_words(one))] for one in ordered
    ]
    rows.insert(0, [_cell(_unchanged(item)), *[Html("")] * (len(STEPS) + 2)])
    changing = sum(one.fewest is not None or bool(one.without) for one in said)
    return folded(
        f"disputed-{item.name}",
        say.folded_title(item.label, len(said), changing=changing),
        paragraphs(disputed_sentence(said, target=target_of(review, pool))),
        listing(*otherwise_lines(said), *comes_in_lines(said)),
        table("disputed", item.label, say.DISPUTED_HEADINGS, rows),
        is_open=is_open,
    )


def _unchanged(item: OutcomeReport) -> str:
    """Return the heading of the row before any change: the row to read as it stands."""
    reading = item.overall.pooled.answer.reading
    if reading is None:
        return say.UNCHANGED
    row = reading.pooled
    return f"{say.UNCHANGED}\n{cell(row.estimate, row.low, row.high)}"


def _cell(text: str) -> Html:
    """Keep the two lines of a cell apart."""
    first, *rest = text.split("\n")
    return joined(words(first), *(element("span", words(line), class_="second") for line in rest))
