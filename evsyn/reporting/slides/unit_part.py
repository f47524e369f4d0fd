"""The slides of a unit's own figures, as far as those who see them may."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from evsyn.audit.ascertainment import period_years
from evsyn.audit.own_series import names_itself
from evsyn.figures.formats import SLIDE
from evsyn.figures.funnel import funnel_layout
from evsyn.figures.strip import Strip, StripContent, strip_layout
from evsyn.reporting.audit_outside import outside_counts
from evsyn.reporting.report.content import ReportContent, UnitReport
from evsyn.reporting.slides.answers import figure_slides
from evsyn.reporting.slides.levels import hue_of, level_hues
from evsyn.reporting.slides.room import Room
from evsyn.reporting.slides.running_text import text_slides
from evsyn.reporting.slides.slide import Slide, plain
from evsyn.reporting.slides.unit_figures import outside_funnel, reported, unit_strips
from evsyn.reporting.told_outside import marks_for
from evsyn.terms import OVERALL, Audience
from evsyn.wording.audience import release_sentence
from evsyn.wording.audit import (
    ascertainment_sentence,
    closing_sentences,
    invented_sentence,
    outside_closing,
    standing_sentences,
)
from evsyn.wording.audit_summary import FOLLOWS, summary_sentences
from evsyn.wording.late_events import late_sentence
from evsyn.wording.outside import cases_sentence, head_sentence, outside_sentences
from evsyn.wording.own_series import alarm_sentences
from evsyn.wording.report_slides import CLOSING_TITLE, OUR_COUNTS, OUTSIDE_TITLE
from evsyn.wording.slides_unit import (
    outside_line,
    own_left_out,
    smaller_pool_sentence,
    target_title,
)
from evsyn.wording.unit_file import flow_sentences, period_sentence

#: Counts named in one sentence of the summary.
_NAMED = 3


def unit_marks(unit: UnitReport) -> tuple[str, str]:
    """Return who may see it, in full and for the foot of a slide."""
    return marks_for(unit.checked, unit.audience)


def unit_head(unit: UnitReport) -> str:
    """Name the unit and its period; outside without a date."""
    own = unit.checked.unit
    if unit.audience is Audience.INSIDE:
        return period_sentence(own)
    return head_sentence(own, period_years(own))


def unit_slides(room: Room, content: ReportContent, outcomes: Sequence[str]) -> Iterator[Slide]:
    """Yield where the unit stands: in words, in figures, and how to read them.

    Parameters
    ----------
    room : Room
        The slide.
    content : ReportContent
        What the report says.
    outcomes : sequence of str
        Outcomes of the talk.
    """
    if content.unit is None:
        return
    unit = content.unit
    yield from _full_words(room, content, unit) if unit.is_full else _outside(room, content, unit)
    for name in reported(unit, outcomes):
        yield from _figures(room, content, unit, name)
    closing = outside_closing()
    if unit.is_full:
        closing = (*_alarms(unit), *closing_sentences(unit.audit.looks))
    yield from text_slides(room, "", CLOSING_TITLE, [plain(line) for line in closing])


def _alarms(unit: UnitReport) -> tuple[str, ...]:
    """Name each study that may hold the unit's own patients and stays in the benchmark."""
    can_check = names_itself(unit.checked.unit)
    return alarm_sentences(unit.audit.alarms, can_check=can_check, has_cure=False)


def _late(content: ReportContent, unit: UnitReport, outcome: str) -> str:
    """Say which events came after the window; the flow of cases stays inside."""
    if unit.audience is not Audience.INSIDE:
        return ""
    return late_sentence(unit.checked.unit, outcome, content.review.plan)


def _full_words(room: Room, content: ReportContent, unit: UnitReport) -> list[Slide]:
    plan, found, own = content.review.plan, unit.audit, unit.checked.unit
    first, *rest = summary_sentences(found.standings, plan, _NAMED, found.wholes)
    said = [
        unit_head(unit),
        *([] if unit.audience is Audience.INSIDE or own.release is None else [_released(unit)]),
        ascertainment_sentence(found.ascertainment, plan.population),
        *(line for line in rest if line != FOLLOWS),
        *(_late(content, unit, name) for name in reported(unit, tuple(plan.outcomes))),
        *_alarms(unit),
        smaller_pool_sentence(own_left_out(found.standings)),
        *invented_sentence(own.invented, content.review.invented),
    ]
    said = [line for line in said if line]
    notes = [s for standing in found.standings for s in standing_sentences(standing, plan)]
    flow = flow_sentences(own, plan) if unit.audience is Audience.INSIDE else ()
    title = f"{own.label}: {first.removesuffix('.')}"
    return text_slides(room, "", title, [plain(line) for line in said], [*flow, *notes])


def _released(unit: UnitReport) -> str:
    release = unit.checked.unit.release
    return "" if release is None else release_sentence(release)


def _outside(room: Room, content: ReportContent, unit: UnitReport) -> list[Slide]:
    """Say what may leave the unit, and nothing else of it."""
    plan, found, own = content.review.plan, unit.audit.ascertainment, unit.checked.unit
    told = outside_counts(unit.audit)
    said = [
        unit_head(unit),
        cases_sentence(found.counted, found.expected, plan.population),
        *(outside_line(item, plan) for item in told),
        smaller_pool_sentence(own_left_out(unit.audit.standings)),
        *invented_sentence(own.invented, content.review.invented),
    ]
    notes = [" ".join(outside_sentences(item, plan)) for item in told]
    title = OUTSIDE_TITLE.format(unit=own.label)
    shown = [plain(line) for line in said if line]
    return text_slides(room, "", title, shown, [*notes, unit_marks(unit)[0]])


def _figures(room: Room, content: ReportContent, unit: UnitReport, outcome: str) -> list[Slide]:
    """Draw the primary levels and the whole; else the funnel around the target, if any."""
    funnel = outside_funnel(content, unit, outcome)
    if funnel is not None:
        words = replace(funnel.words, invented="", invented_studies="", invented_unit="", page="")
        said = funnel_layout(funnel, SLIDE).description
        bare = replace(funnel, title="", status_line="", mark="", short_mark="", words=words)
        drawn = funnel_layout(bare, room.figure_format())
        title, own = funnel.title, unit.checked.unit
        if own.release is None and funnel.centre is not None:
            title = target_title(
                content.review.plan.outcomes[outcome].label, funnel.centre, own.label
            )
        return figure_slides("", title, funnel.title, drawn, said, (said,))
    named = content.review.plan.audit.primary
    first = named.stratum if named is not None and named.outcome == outcome else None
    slides = []
    for stratum in [first, OVERALL] if first else [OVERALL]:
        strips = unit_strips(content, unit, outcome, stratum)
        if strips is None:
            continue
        late = _late(content, unit, outcome) if stratum == OVERALL else ""
        slides += _strip_slides(room, content, "", strips, (_smaller(unit, outcome), late))
    return slides


def _smaller(unit: UnitReport, outcome: str) -> str:
    return smaller_pool_sentence(own_left_out(unit.audit.standings, outcome))


def unit_backup(
    room: Room, content: ReportContent, outcome: str, back: str
) -> tuple[str, str, list[Slide]] | None:
    """Return a name, a key and the slides of every count of an outcome; ``None`` without any."""
    unit = content.unit
    strips = None if unit is None else unit_strips(content, unit, outcome)
    if strips is None:
        return None
    key = f"backup-{outcome}-unit"
    beside = () if unit is None else (_smaller(unit, outcome), _late(content, unit, outcome))
    slides = [replace(one, back=back) for one in _strip_slides(room, content, key, strips, beside)]
    return OUR_COUNTS, key, slides


def _coloured(content: ReportContent, strips: StripContent) -> tuple[Strip, ...]:
    """Give each level the colour it has in the forests of the talk."""
    plan = content.review.plan
    hues = {title: hue for name in plan.strata for title, hue in level_hues(plan, name).items()}
    # A title may go on with the denominator of its count.
    return tuple(
        replace(strip, hue=hue_of(hues, strip.title.partition(", of ")[0]))
        for strip in strips.strips
    )


def _strip_slides(
    room: Room, content: ReportContent, key: str, strips: StripContent, beside: Sequence[str]
) -> list[Slide]:
    """Return a page of strips, with what must stand beside its counts in the subtitle."""
    subtitle = " ".join(part for part in (strips.subtitle, *beside) if part)
    strips = replace(strips, subtitle=subtitle, strips=_coloured(content, strips))
    words = replace(strips.words, invented="", invented_studies="", invented_unit="", page="")
    said = strip_layout(strips, SLIDE).description
    bare = replace(strips, title="", status_line="", mark="", short_mark="", words=words)
    layout = strip_layout(bare, room.figure_format())
    return figure_slides(key, strips.title, strips.title, layout, said, (said,))
