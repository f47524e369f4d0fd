"""How the page looks: one sheet of style, and the labels of cells on narrow screens."""

from functools import cache
from pathlib import Path

from evsyn.reporting.audit_table import AUDIT_HEADINGS
from evsyn.reporting.page.markup import Html
from evsyn.reporting.page.tables import narrow_labels
from evsyn.reporting.page.unit_outside import OUTSIDE_HEADINGS
from evsyn.wording import report_page as say
from evsyn.wording.page_disputed import DISPUTED_HEADINGS
from evsyn.wording.page_doubts import DOUBT_HEADINGS
from evsyn.wording.page_found import FOUND_HEADINGS


@cache
def style_element() -> Html:
    """Return the style as an element."""
    look = (Path(__file__).parent / "look.css").read_text(encoding="utf-8")
    labels = (
        narrow_labels("answers", ("", *say.ANSWER_HEADINGS)),
        narrow_labels("found", FOUND_HEADINGS),
        narrow_labels("evidence", say.EVIDENCE_HEADINGS),
        narrow_labels("left-out", say.LEFT_OUT_HEADINGS),
        narrow_labels("disputed", DISPUTED_HEADINGS),
        narrow_labels("doubts", DOUBT_HEADINGS),
        narrow_labels("audited", AUDIT_HEADINGS),
        narrow_labels("told", OUTSIDE_HEADINGS),
    )
    narrow = "\n".join(labels)
    # Beside a figure, too, columns have no room.
    beside = narrow_labels("beside .answers", ("", *say.ANSWER_HEADINGS))
    return Html(
        f"<style>\n{look}@media screen and (max-width:779px){{\n{narrow}\n}}\n"
        f"@media screen and (min-width:1240px){{\n{beside}\n}}\n</style>"
    )
