"""The last slide of the talk itself: three sentences to keep, and one not to say."""

from evsyn.reporting.audit_outside import outside_counts
from evsyn.reporting.report.content import OutcomeReport, ReportContent, UnitReport
from evsyn.reporting.report.foremost import foremost_strata
from evsyn.reporting.slides.room import Room
from evsyn.reporting.slides.running_text import text_slides
from evsyn.reporting.slides.slide import Slide, plain
from evsyn.terms import Audience
from evsyn.wording.audit import WITHIN_MEANS
from evsyn.wording.audit_summary import primary_sentence
from evsyn.wording.late_events import late_sentence
from evsyn.wording.outside import outside_sentences
from evsyn.wording.pocket_own import place_sentence
from evsyn.wording.pocket_pool import never_sentence, spoken_sentence
from evsyn.wording.report_slides import (
    TAKE_HOME,
    evidence_cannot_tell,
    levels_taken_home,
    spoken_never,
    unit_taken_home,
)
from evsyn.wording.strata import untold_sentence


def take_home_slides(room: Room, content: ReportContent, item: OutcomeReport) -> list[Slide]:
    """Return what a listener should keep of the primary outcome.

    Parameters
    ----------
    room : Room
        The slide.
    content : ReportContent
        What the report says.
    item : OutcomeReport
        The primary outcome.
    """
    said = [
        spoken_sentence(item.label, item.overall.pooled.answer) or item.overall.sentence,
        _levels(content, item),
        _unit(content, content.unit, item) or evidence_cannot_tell(content.review),
    ]
    never = spoken_never(never_sentence(item.overall.pooled.answer))
    shown = [*(plain(line) for line in said if line), plain(never, bold=True)]
    return text_slides(room, "", TAKE_HOME, shown)


def _levels(content: ReportContent, item: OutcomeReport) -> str:
    """Say whether levels differ in the stratum that can be compared; else that none can."""
    strata = foremost_strata(item, content.review.plan)
    if not strata or not item.overall.pooled.answer.show.pooled:
        return ""
    first = strata[0]
    untold = untold_sentence(content.review, item.name, first.name, content.answers)
    return untold or levels_taken_home(first.label, first.difference)


def _unit(content: ReportContent, unit: UnitReport | None, item: OutcomeReport) -> str:
    """Say where the unit stands, as far as those who see it may know; empty without a unit."""
    plan = content.review.plan
    if unit is None:
        return ""
    label = unit.checked.unit.label
    if not unit.is_full:
        told = [one for one in outside_counts(unit.audit) if one.outcome == item.name]
        return unit_taken_home(label, " ".join(outside_sentences(told[0], plan))) if told else ""
    place = place_sentence(unit.audit.whole(item.name), plan)
    label += f", {plan.outcomes[item.name].event}"
    if not place:
        label = unit.checked.unit.label
        place = f"{primary_sentence(unit.audit.standings, plan, unit.audit.wholes)} {WITHIN_MEANS}"
    is_inside = unit.audience is Audience.INSIDE
    late = late_sentence(unit.checked.unit, item.name, plan) if is_inside else ""
    return unit_taken_home(label, place, late)
