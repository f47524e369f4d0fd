"""The answer: every outcome in one table, then each by the plan's strata."""

from collections.abc import Mapping

from evsyn.cells.levels import labelled_strata, level_names
from evsyn.pooling.answer import Row, Show
from evsyn.pooling.tables import PooledTable
from evsyn.reporting.page.forests import first_stratum
from evsyn.reporting.page.markup import Html, element, joined, listing, paragraphs, section, words
from evsyn.reporting.page.tables import table
from evsyn.reporting.page.unsaid import levels_not_compared
from evsyn.reporting.pool_text import group_row, stratum_sentences
from evsyn.reporting.report.content import Answered, OutcomeReport, ReportContent
from evsyn.wording import report_page as say
from evsyn.wording.heterogeneity import heterogeneity_sentence
from evsyn.wording.numbers import limits
from evsyn.wording.pocket_strata import short_difference
from evsyn.wording.pooled import disagreement_sentence, reading_sentence

#: More rows than this do not fit a screen: then only the outcomes stand there.
ONE_SCREEN = 30


def answer_section(content: ReportContent) -> Html:
    """Return every outcome over all studies, and what cannot be told, in one screen."""
    rows = []
    stratum = first_stratum(content.review.plan)
    by_level = _rows_by_level(content, stratum) <= ONE_SCREEN
    for item in content.outcomes:
        link = element("a", words(item.label), href=f"#outcome-{item.name}")
        rows.append(_row(link, item.overall.pooled))
        for one in _levels(item, stratum) if by_level else ():
            rows.append(_row(element("span", words(one.title), class_="of"), one.pooled))
    summed = table("answers", say.ALL_STUDIES, ("Outcome", *say.ANSWER_HEADINGS), rows)
    told = listing(*_differences(content), *levels_not_compared(content))
    beside = paragraphs(say.doubts_beside(len(content.review.open_doubts)), content.cautions)
    return section("answer", say.ANSWER, paragraphs(say.ANSWER_READ), summed, told, beside)


def _differences(content: ReportContent) -> list[str]:
    """Say of each outcome whether the levels of each labelled stratum differ, where tested."""
    plan = content.review.plan
    return [
        say.levels_differ(
            item.label,
            found.label,
            short_difference(found.difference, level_names(plan.strata[found.name])),
        )
        for item in content.outcomes
        for found in item.strata
        if found.name in labelled_strata(plan) and found.difference.test is not None
    ]


def _levels(item: OutcomeReport, stratum: str | None) -> tuple[Answered, ...]:
    """Return the levels of one stratum that hold a study."""
    held = [found.answers for found in item.strata if found.name == stratum]
    return tuple(one for answers in held for one in answers if one.pooled.answer.k)


def _rows_by_level(content: ReportContent, stratum: str | None) -> int:
    return sum(1 + len(_levels(item, stratum)) for item in content.outcomes)


def outcome_sections(content: ReportContent, forests: Mapping[str, Html]) -> Html:
    """Return each outcome: its sentence, its levels, whether they differ, its forest plot.

    Parameters
    ----------
    content : ReportContent
        What the report says.
    forests : mapping
        Figures by outcome; one that is missing is left out.
    """
    parts = [_outcome(content, item, forests.get(item.name, Html(""))) for item in content.outcomes]
    return section("outcomes", say.OUTCOMES, *parts)


def _outcome(content: ReportContent, item: OutcomeReport, forest: Html) -> Html:
    plan = content.review.plan
    answer = item.overall.pooled.answer
    said = paragraphs(
        say.defined(plan.outcomes[item.name].definition),
        item.overall.sentence,
        item.wanted if answer.k else "",
        reading_sentence(answer),
        disagreement_sentence(answer),
        heterogeneity_sentence(answer) if answer.show.pooled else "",
    )
    strata = [_stratum(content, item, number) for number in range(len(item.strata))]
    return section(f"outcome-{item.name}", item.label, said, *strata, forest, level=3)


def _stratum(content: ReportContent, item: OutcomeReport, number: int) -> Html:
    found = item.strata[number]
    rows = [_row(words(one.title), one.pooled) for one in found.answers]
    rows.append(_row(words(item.overall.title), item.overall.pooled))
    shown = table(
        "answers", f"{item.label}: {found.label}", (found.label, *say.ANSWER_HEADINGS), rows
    )
    answers = {one.question: one.pooled for one in (item.overall, *found.answers)}
    told = stratum_sentences(content.review, item.name, found.name, answers, found.sentence)
    return joined(shown, paragraphs(*told), _levels_said(found.answers))


def _levels_said(answers: tuple[Answered, ...]) -> Html:
    """Say each level in a sentence; where the plan does not pool, once for all is enough."""
    points = [
        element("li", words(one.sentence))
        for one in answers
        if one.pooled.answer.k and one.pooled.answer.show is not Show.REFUSED
    ]
    return element("ul", *points, class_="sentences") if points else Html("")


def _row(label: Html, pooled: PooledTable) -> list[Html]:
    """Return the row that the terminal prints, with the range of an ordinary new setting."""
    printed = group_row("", pooled)[1:]
    return [label, *(words(text) for text in (*printed, _range(pooled)))]


def _range(pooled: PooledTable) -> str:
    reading = pooled.answer.reading
    if reading is None or not pooled.answer.show.verdict:
        return say.NO_RANGE if pooled.answer.rows.get(Row.HEADLINE) else ""
    return limits(reading.pooled.prediction_low, reading.pooled.prediction_high)
