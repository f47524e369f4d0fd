"""Comparisons of two treatments within studies, where the plan asks for them."""

from evsyn.pooling.compared import ComparisonAnswer
from evsyn.pooling.review import answer_comparisons
from evsyn.reporting.page.evidence import place_words
from evsyn.reporting.page.markup import Html, element, joined, paragraphs, section, words
from evsyn.reporting.page.tables import table
from evsyn.reporting.report.content import ReportContent
from evsyn.wording import report_page as say
from evsyn.wording.comparison import (
    CONFOUNDED,
    CONTRASTS,
    absolute_sentence,
    choice_sentence,
    comparison_sentence,
    value,
)
from evsyn.wording.numbers import count
from evsyn.wording.rows import mark_letters


def compared_section(content: ReportContent) -> Html:
    """Return each comparison with its sentence and studies; empty where there is none."""
    review = content.review
    if not review.plan.comparisons:
        return Html("")
    answers = answer_comparisons(review, list(review.plan.outcomes))
    parts = [_one(content, answer) for answer in answers]
    if not parts:
        return Html("")
    return section("compared", say.COMPARED, paragraphs(CONFOUNDED), *parts)


def _one(content: ReportContent, answer: ComparisonAnswer) -> Html:
    plan = content.review.plan
    outcome, declared = (
        plan.outcomes[answer.table.outcome],
        plan.comparisons[answer.table.comparison],
    )
    first, second = plan.treatments[declared.first], plan.treatments[declared.second]
    said = comparison_sentence(
        answer, event=outcome.event, label=declared.label, refused=outcome.do_not_pool or ""
    )
    absolute = [absolute_sentence(effect, first=first, second=second) for effect in answer.absolute]
    why = choice_sentence(answer) if answer.choice is not None else ""
    body = [paragraphs(said, why, *absolute)]
    title = f"{outcome.label}: {declared.label}"
    if answer.k:
        headings = say.compared_headings(first, second, CONTRASTS[answer.contrast])
        body.append(table("compared", title, headings, _rows(content, answer), labelled=True))
    name = f"compared-{answer.table.comparison}-{answer.table.outcome}"
    return section(name, title, joined(*body), level=3)


def _rows(content: ReportContent, answer: ComparisonAnswer) -> list[list[Html]]:
    numbers = {item.study: item.number for item in content.references}
    return [
        [
            element("a", words(cell.label), href=f"#ref-{numbers[cell.study]}"),
            words(count(cell.first.events, cell.first.total)),
            words(count(cell.second.events, cell.second.total)),
            words(value(effect, answer.contrast)),
            words(place_words(cell.sources)),
            words(mark_letters(cell.marks)),
        ]
        for cell, effect in zip(answer.table.cells, answer.effects, strict=True)
    ]
