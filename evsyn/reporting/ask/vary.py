"""What other choices would have given, as text or as fields."""

from collections.abc import Sequence
from typing import Any

from evsyn.extraction.review import Review
from evsyn.pooling.vary import OtherWay, Varied
from evsyn.reporting.ask.frame import framed_json, framed_text, named, titled
from evsyn.reporting.plain_table import plain_table
from evsyn.reporting.pool_text import paragraph
from evsyn.wording.ask_vary import (
    KEY,
    NO_OTHER_SET,
    SET_HEADINGS,
    SETS_TITLE,
    WAY_HEADINGS,
    WAYS_TITLE,
    set_rows,
    vary_heading,
    vary_sentence,
    way_rows,
)


def vary_text(review: Review, found: Sequence[Varied]) -> str:
    """Return for each pool one table of other sets and one of other ways."""
    parts = [_block(review, one) for one in found]
    return framed_text(review, [*parts, paragraph(KEY)], questions=_looked_at(found), tests=0)


def vary_json(review: Review, found: Sequence[Varied]) -> str:
    """Return the same as JSON."""
    fields = {"pools": [_fields(one) for one in found]}
    return framed_json(review, fields, questions=_looked_at(found), tests=0)


def _block(review: Review, found: Varied) -> str:
    said = [paragraph(vary_sentence(found))]
    if found.headlines:
        said += ["", SETS_TITLE]
        if found.sets:
            said.append(
                plain_table(SET_HEADINGS, list(set_rows(found)), right=(1, 5), whole=(2, 3, 4))
            )
        else:
            said.append(paragraph(NO_OTHER_SET))
        said += ["", WAYS_TITLE, plain_table(WAY_HEADINGS, list(way_rows(found)), right=(2,))]
    return titled(vary_heading(*named(review, found.base.table.question)), *said)


def _looked_at(found: Sequence[Varied]) -> int:
    ways = (way for one in found for way in (*one.headlines, *one.models, *one.scales))
    made = sum(way.value is not None for way in ways)
    return len(found) + sum(len(one.sets) for one in found) + made


def _fields(found: Varied) -> dict[str, Any]:
    return {
        "question": found.base.table.question.key,
        "sets": [
            {
                "set": one.label,
                "k": one.pooled.answer.k,
                "studies": [row.study for row in one.pooled.table.cells],
                "rows": {str(k): row.to_dict() for k, row in one.pooled.answer.rows.items()},
                "reading_row": _row_of(one.pooled.answer.reading),
            }
            for one in found.sets
        ],
        "ways": [_way(one) for one in (*found.headlines, *found.models, *found.scales)],
    }


def _row_of(reading: Any) -> str | None:
    return None if reading is None else str(reading.row)


def _way(one: OtherWay) -> dict[str, Any]:
    return {
        "between": one.between,
        "interval": one.interval,
        "scale": one.scale,
        "answer": None if one.value is None else one.value.to_dict(),
    }
