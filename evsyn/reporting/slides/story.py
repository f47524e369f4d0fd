"""The order of a talk."""

from collections.abc import Iterable
from dataclasses import replace

from evsyn.figures.invented import Invented, banner_words
from evsyn.reporting.report.content import ReportContent
from evsyn.reporting.slides.about import (
    INDEX,
    index_slides,
    limits_slides,
    reference_slides,
    search_slides,
    title_slides,
)
from evsyn.reporting.slides.answers import (
    answer_slides,
    backup_slides,
    main_outcomes,
    primary_outcome,
)
from evsyn.reporting.slides.room import Room
from evsyn.reporting.slides.slide import Slide
from evsyn.reporting.slides.take_home import take_home_slides
from evsyn.reporting.slides.unit_part import unit_backup, unit_head, unit_marks, unit_slides
from evsyn.reporting.told_counts import invented_of
from evsyn.wording.page import PageWords
from evsyn.wording.report_slides import (
    PART_BACKUP,
    PART_EVIDENCE,
    PART_REFERENCES,
    PART_START,
    TAKE_HOME,
    part_backup,
)


def talk(room: Room, content: ReportContent) -> tuple[Slide, ...]:
    """Return the slides: title, answers, the unit, limits, search, what to take home; then backup.

    The references stand last, where a list leads to them.

    Parameters
    ----------
    room : Room
        What room a slide leaves.
    content : ReportContent
        What the report says.
    """
    main = main_outcomes(content)
    others = [item.label for item in content.outcomes if item not in main]
    slides = _part(PART_START, title_slides(room, content, _marks(content), others))
    for item in main:
        slides += _part(item.label, answer_slides(room, content, item))
    if content.unit is not None:
        named = content.unit.checked.unit.label
        slides += _part(named, unit_slides(room, content, [item.name for item in main]))
    about = (*limits_slides(room, content), *search_slides(room, content))
    slides += _part(PART_EVIDENCE, about)
    (primary,) = [item for item in main if item.name == primary_outcome(content)]
    slides += _part(TAKE_HOME, take_home_slides(room, content, primary))
    listed, backup = [], list[Slide]()
    for item in content.outcomes:
        places = []
        for name, key, found in backup_slides(room, content, item, INDEX):
            places.append((name, key))
            backup += _part(part_backup(item.label), found)
        own = unit_backup(room, content, item.name, INDEX)
        if own is not None:
            places.append(own[:2])
            backup += _part(part_backup(item.label), own[2])
        listed.append((item.label, places))
    references = _part(PART_REFERENCES, reference_slides(room, content))
    return (*slides, *_part(PART_BACKUP, index_slides(room, listed)), *backup, *references)


def _part(name: str, slides: Iterable[Slide]) -> list[Slide]:
    """Say of slides which part of the talk they are."""
    return [replace(slide, section=name) for slide in slides]


def foot_words(content: ReportContent) -> str:
    """Return what stands under every slide: what is invented, the status, who may see it."""
    banner = "" if content.review.invented else invented_words(content)
    mark = "" if content.unit is None else unit_marks(content.unit)[1]
    return " ".join(part for part in (banner, content.status, mark) if part)


def invented_words(content: ReportContent) -> str:
    """Say which side is invented; empty where nothing is."""
    if content.unit is not None:
        side = invented_of(content.review, [content.unit.checked])
    else:
        side = Invented.ALL if content.review.invented else Invented.NOTHING
    said = banner_words(side, PageWords())
    return f"{said}." if said else ""


def _marks(content: ReportContent) -> list[str]:
    said = [invented_words(content)]
    if content.unit is not None:
        said += [unit_marks(content.unit)[0], unit_head(content.unit)]
    return [words for words in said if words]
