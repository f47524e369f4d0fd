"""Each outcome: its sentences, its levels, whether they differ, and its forest plot beside them."""

from collections.abc import Mapping

from evsyn.pooling.answer import Show
from evsyn.reporting.page.answers import answer_row
from evsyn.reporting.page.markup import Html, element, folded, joined, paragraphs, section, words
from evsyn.reporting.page.order import primary_first, telling_first
from evsyn.reporting.page.tables import table
from evsyn.reporting.pool_text import stratum_sentences
from evsyn.reporting.report.content import Answered, OutcomeReport, ReportContent, StratumReport
from evsyn.wording import report_page as say
from evsyn.wording.heterogeneity import heterogeneity_sentence
from evsyn.wording.pooled import disagreement_sentence, reading_sentence


def outcome_sections(content: ReportContent, forests: Mapping[str, Html]) -> Html:
    """Return each outcome: its sentence, its levels, whether they differ, its forest plot.

    Parameters
    ----------
    content : ReportContent
        What the report says.
    forests : mapping
        Figures by outcome; one that is missing is left out.
    """
    ordered = primary_first(content)
    parts = [_outcome(content, item, forests.get(item.name, Html(""))) for item in ordered]
    advice = element("p", words(say.FIGURE_HELP), class_="advice status")
    return section("outcomes", say.OUTCOMES, advice, *parts)


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
    first, *others = [_stratum(content, item, one) for one in telling_first(content, item)] or [
        Html("")
    ]
    beside = element("div", joined(said, first), class_="words")
    both = element("div", joined(beside, forest), class_="beside")
    below = element("div", joined(*others), class_="blocks") if others else Html("")
    return section(f"outcome-{item.name}", item.label, both, below, level=3)


def _stratum(content: ReportContent, item: OutcomeReport, found: StratumReport) -> Html:
    rows = [answer_row(words(one.title), one.pooled) for one in found.answers]
    rows.append(answer_row(words(item.overall.title), item.overall.pooled))
    title = f"{item.label}: {found.label}"
    shown = table("answers", title, (found.label, *say.ANSWER_HEADINGS), rows)
    answers = {one.question: one.pooled for one in (item.overall, *found.answers)}
    told = stratum_sentences(content.review, item.name, found.name, answers, found.sentence)
    name = f"{item.name}-by-{found.name}"
    sentences = _levels_said(name, found.answers)
    by = say.by_stratum(found.label)
    return folded(name, by, shown, paragraphs(*told), sentences, is_open=True)


def _levels_said(name: str, answers: tuple[Answered, ...]) -> Html:
    """Say each level in a sentence; where the plan does not pool, once for all is enough."""
    points = [
        element("li", words(one.sentence))
        for one in answers
        if one.pooled.answer.k and one.pooled.answer.show is not Show.REFUSED
    ]
    if not points:
        return Html("")
    return folded(f"said-{name}", say.IN_SENTENCES, element("ul", *points, class_="sentences"))
