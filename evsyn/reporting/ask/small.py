"""Whether small studies differ from large ones, as text or as fields."""

from collections.abc import Sequence
from typing import Any

from evsyn.extraction.review import Review
from evsyn.pooling.small_asked import SmallComparison, SmallShares
from evsyn.pooling.small_studies import SmallStudyLine
from evsyn.reporting.ask.fits import number, regression_fields
from evsyn.reporting.ask.frame import framed_json, framed_text, named, titled
from evsyn.reporting.plain_table import plain_table
from evsyn.reporting.pool_text import paragraph
from evsyn.wording import ask_small as words


def small_text(
    review: Review, shares: Sequence[SmallShares], compared: Sequence[SmallComparison] = ()
) -> str:
    """Return one block a pool of proportions, and one a comparison."""
    parts = [_shares(review, one) for one in shares]
    parts += [_comparison(review, one) for one in compared]
    if any(one.reason is None for one in shares):
        parts.append(paragraph(words.HOW))
    if shares:
        parts.append(paragraph(words.NEVER_EGGER))
    return framed_text(
        review, parts, questions=len(shares) + len(compared), tests=_tests(shares, compared)
    )


def small_json(
    review: Review, shares: Sequence[SmallShares], compared: Sequence[SmallComparison] = ()
) -> str:
    """Return the same as JSON."""
    fields: dict[str, Any] = {
        "pools": [
            {
                "question": one.pooled.table.question.key,
                "k": one.pooled.answer.k,
                "reason": None if one.reason is None else str(one.reason),
                "reads_exact": one.reads_exact,
                "line": None if one.line is None else _line(one.line),
                "exact": None if one.exact is None else regression_fields(one.exact),
                "i2": number(one.i2),
                "sizes_apart": number(one.sizes_apart),
            }
            for one in shares
        ],
        "comparisons": [
            {
                "comparison": one.answer.table.key,
                "k": one.k,
                "reason": None if one.reason is None else str(one.reason),
                "tau2": number(one.tau2),
                "line": None if one.line is None else _line(one.line),
            }
            for one in compared
        ],
    }
    return framed_json(
        review,
        fields,
        questions=len(shares) + len(compared),
        tests=_tests(shares, compared),
    )


def _tests(shares: Sequence[SmallShares], compared: Sequence[SmallComparison]) -> int:
    reasons = [one.reason for one in shares] + [one.reason for one in compared]
    return reasons.count(None)


def _shares(review: Review, asked: SmallShares) -> str:
    parts = [paragraph(text) for text in words.small_sentences(asked)]
    if asked.reason is None:
        table = plain_table(
            words.headings(asked), words.line_rows(asked), right=(3, 4), whole=(1, 2, 3, 4)
        )
        parts += ["", table]
    return titled(words.small_heading(*named(review, asked.pooled.table.question)), *parts)


def _comparison(review: Review, asked: SmallComparison) -> str:
    table = asked.answer.table
    label = review.plan.outcomes[table.outcome].label
    against = review.plan.comparisons[table.comparison].label.lower()
    parts = [paragraph(text) for text in words.comparison_sentences(asked)]
    return titled(words.small_heading(label, against), *parts)


def _line(line: SmallStudyLine) -> dict[str, Any]:
    return {
        "method": line.method,
        "k": line.k,
        "tested": number(line.tested),
        "se": number(line.se),
        "t": number(line.t),
        "df": line.df,
        "p": number(line.p),
        "other": number(line.other),
    }
