"""What an outcome goes with between studies, as text or as fields."""

from typing import Any

from evsyn.extraction.review import Review
from evsyn.pooling.on_covariates import OnCovariates
from evsyn.reporting.ask.fits import regressed_fields
from evsyn.reporting.ask.frame import framed_json, framed_text, titled
from evsyn.reporting.plain_table import plain_table
from evsyn.reporting.pool_text import paragraph
from evsyn.wording import ask_regress as words


def regress_text(review: Review, asked: OnCovariates) -> str:
    """Return the sentences, every model in one table, and rates at a few values."""
    label = review.plan.outcomes[asked.outcome].label
    said = [
        *words.regress_sentences(asked),
        words.short_sentence(asked.gathered.short, asked.covariates),
        words.without_sentence(asked.gathered.without),
    ]
    parts = [paragraph(text) for text in said if text]
    rows = words.model_rows(asked)
    keys = []
    if rows:
        parts += ["", plain_table(words.TERM_HEADINGS, rows, right=(2, 3), whole=(1, 2, 3))]
        keys.append(paragraph(words.KEY))
    if asked.rates and not words.is_inflated(asked):
        rates = [words.rate_row(one) for one in asked.rates]
        parts += ["", plain_table(words.RATE_HEADINGS, rates)]
    if asked.found is not None and asked.found.robust is not None:
        keys.append(paragraph(words.ROBUST_KEY))
    block = titled(words.regress_heading(label, asked.covariates), *parts)
    return framed_text(review, [block, *keys], questions=1, tests=asked.tests)


def regress_json(review: Review, asked: OnCovariates) -> str:
    """Return the same as JSON, with every row."""
    fields: dict[str, Any] = {
        "outcome": asked.outcome,
        "on": [one.word for one in asked.covariates],
        "reason": None if asked.reason is None else str(asked.reason),
        "terms": [
            {"column": one.column, "level": one.level or None, "against": one.against or None}
            for one in asked.terms
        ],
        "regression": None if asked.found is None else regressed_fields(asked.found),
        "rates": [
            {
                "covariate": one.covariate.word,
                "value": one.value,
                "rate": one.rate,
                "low": one.low,
                "high": one.high,
            }
            for one in asked.rates
        ],
        "rows": [
            {
                "study": row.cell.study,
                "events": row.cell.events,
                "total": row.cell.total,
                "values": list(row.values),
            }
            for row in asked.gathered.rows
        ],
        "without": [
            {"study": one.study, "lacks": list(one.words)} for one in asked.gathered.without
        ],
        "short_levels": [
            {"covariate": word, "level": level, "studies": studies}
            for word, level, studies in asked.gathered.short
        ],
    }
    return framed_json(review, fields, questions=1, tests=asked.tests)
