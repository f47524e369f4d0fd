"""The slides about the review itself: title, limits, search, references, and the list of backup."""

from collections.abc import Sequence
from dataclasses import replace

from evsyn.cells.levels import labelled_strata
from evsyn.reporting.report.content import ReportContent
from evsyn.reporting.slides.room import LEAST, Room, inner
from evsyn.reporting.slides.running_text import SIZES, text_slides
from evsyn.reporting.slides.slide import Paragraph, Run, Slide, plain
from evsyn.wording.report_slides import (
    ALL_STUDIES,
    INDEX_TITLE,
    LIMITS_TITLE,
    OTHERS_IN_BACKUP,
    PART_REFERENCES,
    limits_lines,
    references_title,
    search_lines,
    search_title,
    strategy_lines,
)
from evsyn.wording.strata import stating_sentence

INDEX, REFERENCES = "index", "references"
_COVER_SIZES = tuple(size for size in SIZES if size <= 22)
_BETWEEN = "  ·  "


def title_slides(
    room: Room, content: ReportContent, marks: Sequence[str], others: Sequence[str]
) -> list[Slide]:
    """Return the first slide: what was asked, and what to know first.

    Parameters
    ----------
    room : Room
        The slide.
    content : ReportContent
        What the report says.
    marks : sequence of str
        What is invented, and who may see it.
    others : sequence of str
        Outcomes that stand in the backup alone.
    """
    plan = content.review.plan
    said = [plain(plan.question), *(plain(mark, bold=True) for mark in marks)]
    # The foot, which a layout to begin with may have no ground for, says the status if it warns.
    if room.cover is None or not content.invented:
        said.append(plain(content.status))
    if others:
        said.append(plain(OTHERS_IN_BACKUP.format(labels=", ".join(others))))
    notes = (content.methods, content.cautions)
    if room.cover is not None:
        place = replace(room, body=inner(room.cover.words))
        words = text_slides(place, "", plan.title, said, notes, sizes=_COVER_SIZES)
        if len(words) == 1:
            return [replace(words[0], is_cover=True)]
    return text_slides(room, "", plan.title, said, notes)


def limits_slides(room: Room, content: ReportContent) -> list[Slide]:
    """Return what the evidence cannot tell."""
    review = content.review
    stating = [stating_sentence(review, name) for name in labelled_strata(review.plan)]
    said = [plain(line) for line in limits_lines(review, stating, content.cautions)]
    doubts = tuple(f"{one.source}: {one.message}" for one in review.open_doubts)
    return text_slides(room, "", LIMITS_TITLE, said, (content.methods, *doubts))


def search_slides(room: Room, content: ReportContent) -> list[Slide]:
    """Return how the papers were come by."""
    plan = content.review.plan
    said = [plain(line) for line in search_lines(plan)]
    return text_slides(room, "", search_title(plan), said, strategy_lines(plan))


def reference_slides(room: Room, content: ReportContent) -> list[Slide]:
    """Return every study with its citation; the number leads to the paper."""
    said = [
        Paragraph((Run(f"{one.number}.", address=_web(one.address)), Run(f" {one.text}")))
        for one in content.references
    ]
    title = references_title(len(content.references))
    slides = text_slides(room, REFERENCES, title, said, sizes=(LEAST,))
    return [replace(one, back=INDEX) for one in slides]


def index_slides(
    room: Room, listed: Sequence[tuple[str, Sequence[tuple[str, str]]]]
) -> list[Slide]:
    """Return the list of the backup slides, a line an outcome, and where the references are.

    Parameters
    ----------
    room : Room
        The slide.
    listed : sequence of (str, sequence of (str, str))
        Each outcome, with the name and the key of what stands behind it.
    """
    said = []
    for label, places in listed:
        runs = [Run(f"{label}: ")]
        for i, (name, key) in enumerate(places):
            runs += [Run(_BETWEEN)] if i else []
            runs.append(Run(name or ALL_STUDIES, target=key))
        said.append(Paragraph(tuple(runs)))
    said.append(Paragraph((Run(PART_REFERENCES, target=REFERENCES),)))
    return text_slides(room, INDEX, INDEX_TITLE, said)


def _web(address: str) -> str:
    """Return an address only if it is one of the web, in letters every program takes."""
    is_plain = address.isascii() and address.isprintable() and not set(address) & set(' "<>\\^`{|}')
    return address if is_plain and address.startswith(("https://", "http://")) else ""
