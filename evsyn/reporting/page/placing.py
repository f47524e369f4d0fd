"""Where a reader types own figures: what the script needs, and the form it fills."""

from collections.abc import Iterator
from typing import Any

from evsyn.audit.benchmark import benchmark
from evsyn.audit.comparable import Differs, comparable
from evsyn.audit.mixture import MOST_LISTED, Mixture, mixture
from evsyn.audit.predictive import spread_used
from evsyn.audit.reasons import NO_ROW, Caveat, Reason
from evsyn.audit.verdict import TAIL
from evsyn.extraction.plan import Plan
from evsyn.pooling.answer import Show
from evsyn.reporting.page.markup import Html, element, joined, opening, paragraphs, section, words
from evsyn.reporting.report.content import Answered, OutcomeReport, ReportContent
from evsyn.reporting.report.foremost import foremost_strata
from evsyn.terms import NOT_STATED, UNPLACED
from evsyn.wording import report_page as say
from evsyn.wording.audit_caveats import REASON_WORDS, remark_sentences
from evsyn.wording.audit_verdict import marks
from evsyn.wording.placing import CASE_MIX_MATTERS, PLACING, no_comparison


def placing_fields(content: ReportContent) -> dict[str, Any]:
    """Return what the page's script needs: sentences, and each level with its list of rates."""
    plan = content.review.plan
    outcomes = [_outcome(item, plan) for item in content.outcomes]
    return {
        "most": MOST_LISTED,
        "tail": TAIL,
        "words": PLACING,
        "outcomes": [item for item in outcomes if item["levels"]],
    }


def placing_section(fields: dict[str, Any]) -> Html:
    """Return the form; without scripts it stays hidden, and a sentence says so."""
    if not any("x" in level for item in fields["outcomes"] for level in item["levels"]):
        return section("place", say.PLACE, paragraphs(say.PLACE_NOTHING))
    form = joined(
        _choice("outcome", say.LABEL_OUTCOME),
        _choice("level", say.LABEL_LEVEL),
        _number("events", say.LABEL_EVENTS),
        _number("cases", say.LABEL_CASES),
        element("button", words(say.BUTTON_PLACE), type="submit"),
    )
    told = element("output", id="tried", class_="tried", for_="place-events place-cases")
    return section(
        "place",
        say.PLACE,
        paragraphs(say.PLACE_INTRO, say.PLACE_WHICH),
        Html(f"<noscript>{paragraphs(say.PLACE_WITHOUT_SCRIPT)}</noscript>"),
        Html(f'<form class="form" id="place-form" hidden>\n{form}\n</form>'),
        element("p", id="place-as", class_="status"),
        told,
    )


def _choice(name: str, label: str) -> Html:
    return element("label", words(label), element("select", id=f"place-{name}"))


def _number(name: str, label: str) -> Html:
    given = opening("input", id=f"place-{name}", type="number", min="0", inputmode="numeric")
    return element("label", words(label), given)


def _outcome(item: OutcomeReport, plan: Plan) -> dict[str, Any]:
    declared = plan.outcomes[item.name]
    window = plan.windows[declared.windows[0]] if declared.windows else None
    basis = plan.denominators[declared.denominators[0]]
    return {
        "label": item.label,
        "events": declared.events,
        "better": str(declared.better),
        "as": say.counted_as(basis, "" if window is None else window.label),
        "levels": list(_levels(item, plan)),
    }


def _levels(item: OutcomeReport, plan: Plan) -> Iterator[dict[str, Any]]:
    """Yield all studies first, without a verdict; then each level that holds a study."""
    yield {
        "key": item.overall.question.key,
        "label": say.ALL_STUDIES,
        **_whole(_level(item.overall, plan)),
    }
    for stratum in foremost_strata(item, plan):
        for answered in stratum.answers:
            if answered.pooled.answer.k:
                yield {
                    "key": answered.question.key,
                    "label": f"{stratum.label}: {answered.title.lower()}",
                    **_level(answered, plan),
                }


def _whole(level: dict[str, Any]) -> dict[str, Any]:
    """Withhold the verdict of a whole, as an audit does where no case mix is known."""
    if "x" not in level:
        return level
    remarks = [CASE_MIX_MATTERS, *level["remarks"]]
    return {**level, "more": False, "fewer": False, "mix": True, "remarks": remarks}


def _level(answered: Answered, plan: Plan) -> dict[str, Any]:
    """Return a level's list of rates and remarks, or why nothing can be set against it."""
    outcome, pooled = plan.outcomes[answered.question.outcome], answered.pooled
    listed = mixture(pooled.answer)
    if listed is None:
        return _no_comparison(NO_ROW.get(pooled.answer.show, Reason.NO_READING))
    wanted = outcome.windows[0] if outcome.windows else NOT_STATED
    if wanted in plan.windows and plan.windows[wanted].is_open:
        return {"remarks": [say.OPEN_WINDOW]}
    judged = comparable(outcome.denominators[0], wanted, pooled.table, plan)
    if not judged.at_all:
        return _no_comparison(Reason.BASIS)
    return {
        "x": listed.log_odds,
        "w": listed.weights,
        "k": listed.k,
        "df": listed.df,
        "mean": listed.mean,
        "larger": listed.used_larger_spread,
        "enough": listed.has_enough_studies,
        "spread": listed.knows_spread,
        "more": judged.more,
        "fewer": judged.fewer,
        "marks": marks(judged.differs),
        "remarks": _remarks(answered, listed, judged.differs, plan),
    }


def _no_comparison(reason: Reason) -> dict[str, Any]:
    return {"remarks": [no_comparison(REASON_WORDS[reason])]}


def _remarks(
    answered: Answered, listed: Mixture, differs: tuple[Differs, ...], plan: Plan
) -> list[str]:
    """Return what an audit would ask to bear in mind of any count at this level."""
    answer = answered.pooled.answer
    told = {
        Caveat.UNRELIABLE: answer.show is Show.FEW,
        Caveat.SPREAD_GUESSED: answer.show in (Show.FEW, Show.SOME),
        Caveat.SPREAD_NEAR_NOTHING: listed.used_larger_spread,
        Caveat.UNPLACED: answered.question.level == UNPLACED,
    }
    reading = answer.reading
    used = None if reading is None or reading.rho is not None else spread_used(reading)
    return remark_sentences(
        differs,
        [caveat for caveat, holds in told.items() if holds],
        benchmark(answered.pooled),
        None if used is None else used.tau,
        plan,
    )
