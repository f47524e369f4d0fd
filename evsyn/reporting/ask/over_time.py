"""How a pool grew from year to year, as text or as fields."""

from collections.abc import Sequence
from typing import Any

from evsyn.extraction.review import Review
from evsyn.pooling.over_time import UpTo, grown_over_time
from evsyn.pooling.tables import PooledTable
from evsyn.reporting.ask.frame import framed_json, framed_text, named, titled
from evsyn.reporting.plain_table import plain_table
from evsyn.reporting.pool_text import paragraph
from evsyn.wording.ask_over_time import (
    HEADINGS,
    KEY,
    over_time_heading,
    over_time_row,
    over_time_sentence,
)

Grown = tuple[PooledTable, Sequence[UpTo]]


def grown_of(review: Review, base: PooledTable) -> Grown:
    """Return a pool with the pools of the papers up to each year."""
    return base, grown_over_time(review, base)


def over_time_text(review: Review, found: Sequence[Grown]) -> str:
    """Return one table a pool, a line a year."""
    parts = [_block(review, base, steps) for base, steps in found]
    return framed_text(review, [*parts, paragraph(KEY)], questions=_looked_at(found), tests=0)


def over_time_json(review: Review, found: Sequence[Grown]) -> str:
    """Return the same as JSON."""
    pools = [
        {"question": base.table.question.key, "years": [_year(step) for step in steps]}
        for base, steps in found
    ]
    return framed_json(review, {"pools": pools}, questions=_looked_at(found), tests=0)


def _block(review: Review, base: PooledTable, steps: Sequence[UpTo]) -> str:
    said = [paragraph(over_time_sentence(steps))]
    if steps:
        rows = [over_time_row(step) for step in steps]
        said += ["", plain_table(HEADINGS, rows, right=(1, 2), whole=(3, 4, 5))]
    return titled(over_time_heading(*named(review, base.table.question)), *said)


def _looked_at(found: Sequence[Grown]) -> int:
    pooled = (step.pooled.answer.show.pooled for _, steps in found for step in steps)
    return sum(pooled) or len(found)


def _year(step: UpTo) -> dict[str, Any]:
    answer = step.pooled.answer
    reading = answer.reading
    return {
        "up_to": step.year,
        "new": list(step.new),
        "k": answer.k,
        "events": sum(answer.events),
        "total": sum(answer.total),
        "rows": {str(name): row.to_dict() for name, row in answer.rows.items()},
        "reading_row": None if reading is None else str(reading.row),
    }
