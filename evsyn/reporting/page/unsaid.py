"""What the evidence cannot say, counted where it can be counted."""

from evsyn.cells.levels import labelled_strata
from evsyn.reporting.page.markup import Html, element, listing, section, words
from evsyn.reporting.pocket.card import pocket_card
from evsyn.reporting.report.content import OutcomeReport, ReportContent
from evsyn.terms import TextRead
from evsyn.wording import report_page as say
from evsyn.wording.strata import untold_sentence


def levels_not_compared(content: ReportContent) -> list[str]:
    """Say, stratum by stratum, for which outcomes levels cannot be compared."""
    plan = content.review.plan
    said = []
    for name, stratum in labelled_strata(plan).items():
        events = [
            _lower(item.label) for item in content.outcomes if _is_untold(content, item, name)
        ]
        said.append(say.cannot_compare(stratum.label, events))
    return [sentence for sentence in said if sentence]


def unsaid_section(content: ReportContent) -> Html:
    """Return what these studies cannot tell, then what no such studies could."""
    plan, studies = content.review.plan, content.review.studies
    part = sum(study.extracted.from_ is not TextRead.FULL_TEXT for study in studies)
    refused = [
        say.not_pooled(_lower(told.label), told.do_not_pool)
        for told in plan.outcomes.values()
        if told.do_not_pool
    ]
    few = [
        _lower(item.label)
        for item in content.outcomes
        if plan.outcomes[item.name].do_not_pool is None
        and not item.overall.pooled.answer.show.verdict
    ]
    points = [
        *levels_not_compared(content),
        say.few_studies(few),
        *refused,
        say.read_in_part(part, len(studies)),
        say.NO_SEARCH if not isinstance(plan.search, list) else "",
        *say.NEVER_TOLD,
    ]
    never = [say.never_said(one.question, one.never) for one in pocket_card(content).prompts]
    title = element("h3", words(say.do_not_say(_lower(content.outcomes[0].label))))
    return section("unsaid", say.UNSAID, listing(*points), title, listing(*never))


def _lower(label: str) -> str:
    return f"{label[:1].lower()}{label[1:]}"


def _is_untold(content: ReportContent, item: OutcomeReport, stratum: str) -> bool:
    (found,) = [one for one in item.strata if one.name == stratum]
    answers = {one.question: one.pooled for one in found.answers}
    return bool(untold_sentence(content.review, item.name, stratum, answers))
