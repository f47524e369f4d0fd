"""All that a pocket card says, before anyone thinks of the room it takes."""

from dataclasses import dataclass

from evsyn.audit.ascertainment import period_years
from evsyn.audit.own_series import names_itself
from evsyn.extraction.plan import Plan
from evsyn.figures.invented import Invented, banner_words
from evsyn.reporting.audit_outside import outside_counts
from evsyn.reporting.pocket.compared import comparison_prompts
from evsyn.reporting.pocket.facts import reported_facts
from evsyn.reporting.pocket.series import extreme_series, welcome_reach
from evsyn.reporting.pocket.strata import strata_prompts
from evsyn.reporting.report.content import OutcomeReport, ReportContent, UnitReport
from evsyn.reporting.told_counts import invented_of
from evsyn.reporting.told_outside import marks_for
from evsyn.terms import Audience
from evsyn.wording.outside import head_sentence
from evsyn.wording.pocket import NOT_HERE, PocketWords, Prompt, card_title
from evsyn.wording.pocket_own import outside_prompt, own_prompt
from evsyn.wording.pocket_pool import others_prompt, pool_prompt
from evsyn.wording.pocket_review import cases_prompt, search_prompt
from evsyn.wording.pocket_series import extremes_prompt, most_prompt, no_number_prompt
from evsyn.wording.unit_file import period_sentence


@dataclass(frozen=True, slots=True)
class Card:
    """A pocket card.

    Parameters
    ----------
    title : str
        What it is about.
    mark : str
        Who may see the unit's figures; empty without a unit.
    subtitle : str
        The unit and its period, as far as that is told; empty without a unit.
    prompts : tuple of Prompt
        The questions with their answers; with a unit, its own figures first.
    caution : str
        What the numbers support and never replace.
    status : str
        The status line.
    invented : Invented
        What of it is invented.
    words : PocketWords
        Fixed words.
    """

    title: str
    mark: str
    subtitle: str
    prompts: tuple[Prompt, ...]
    caution: str
    status: str
    invented: Invented
    words: PocketWords

    @property
    def banner(self) -> str:
        """Words of the strip over what is invented; empty where nothing is."""
        return banner_words(self.invented, self.words)


def pocket_card(content: ReportContent) -> Card:
    """Return all that a pocket card says of the first outcome of the plan.

    Parameters
    ----------
    content : ReportContent
        The content of the report.
    """
    unit, plan = content.unit, content.review.plan
    item = content.outcomes[0]
    own = () if unit is None else (_own(unit, content),)
    return Card(
        title=card_title(plan.outcomes[item.name], plan.title),
        mark="" if unit is None else marks_for(unit.checked, unit.audience)[0],
        subtitle="" if unit is None else _whose(unit),
        prompts=(*own, *_of_studies(content, item)),
        caution=content.cautions,
        status=content.status,
        invented=_invented(content),
        words=PocketWords(),
    )


def _invented(content: ReportContent) -> Invented:
    if content.unit is not None:
        return invented_of(content.review, (content.unit.checked,))
    return Invented.ALL if content.review.invented else Invented.NOTHING


def _own(unit: UnitReport, content: ReportContent) -> Prompt:
    plan, audited = content.review.plan, unit.audit
    if unit.audience is Audience.OUTSIDE and unit.checked.unit.full_release is None:
        found = audited.ascertainment
        return outside_prompt(outside_counts(audited), found.counted, found.expected, plan)
    can_check = names_itself(unit.checked.unit)
    return own_prompt(audited, plan, unit.audience, can_check=can_check)


def _whose(unit: UnitReport) -> str:
    """Name the unit and its period; no date goes outside."""
    figures = unit.checked.unit
    if unit.audience is Audience.INSIDE:
        return period_sentence(figures)
    return head_sentence(figures, period_years(figures))


def _treatment(plan: Plan) -> str:
    """Name the treatment that shares are pooled over, where the plan lists several."""
    return next(iter(plan.treatments.values())) if len(plan.treatments) > 1 else ""


def _of_studies(content: ReportContent, item: OutcomeReport) -> tuple[Prompt, ...]:
    review, overall = content.review, item.overall
    plan, pooled = review.plan, overall.pooled
    outcome = plan.outcomes[item.name]
    high, low = extreme_series(review, pooled.table)
    found = welcome_reach(plan, item.name, pooled)
    refused = outcome.do_not_pool or ""
    others = [(one.label, one.overall.pooled.answer) for one in content.outcomes[1:]]
    most = no_number_prompt(refused)
    if found is not None and not refused:
        most = most_prompt(found.series, found.words, found.target)
    return (
        pool_prompt(outcome, pooled.answer, overall.sentence, item.wanted, _treatment(plan)),
        *comparison_prompts(review, item.name),
        *strata_prompts(review, item),
        *([others_prompt(others)] if others else []),
        extremes_prompt(high, low, outcome.event, refused),
        most,
        cases_prompt(reported_facts(review, pooled.table), pooled.table.k, outcome.event),
        search_prompt(review),
        NOT_HERE,
    )
