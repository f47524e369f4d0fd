"""Made-up talks that need no pooling: any number of studies, any words."""

from evsyn.reporting.slides.answers import forest_slides
from evsyn.reporting.slides.deck import written
from evsyn.reporting.slides.running_text import text_slides
from evsyn.reporting.slides.slide import Paragraph, Run
from evsyn.reporting.slides.template import template_for

FOOT = "INVENTED DATA: a made-up talk; search: none: chosen papers; open doubts: 3."


def forest_talk(content, *, template: bytes | None = None, foot: str = FOOT, notes=("A note.",)):
    """Return a talk of one forest: the summaries, then every row."""
    made = template_for(template, foot)
    slides = [
        *forest_slides(made.room, "", content.title, content, notes),
        *forest_slides(made.room, "all", content.title, content, notes, all_rows=True),
    ]
    return written(made, slides, foot, title=content.title, is_marked=True)


def text_talk(said, *, title: str = "Words", notes=(), target: str = "", address: str = ""):
    """Return a talk of paragraphs."""
    made = template_for(None, FOOT)
    paragraphs = [Paragraph((Run(one, target=target, address=address),)) for one in said]
    slides = text_slides(made.room, "words", title, paragraphs, notes)
    return written(made, slides, FOOT, title=title, is_marked=False)
