"""The whole page, from its head to its foot."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Any

from evsyn.reporting.page.answers import answer_section
from evsyn.reporting.page.compared import compared_section
from evsyn.reporting.page.disputed import disputed_section
from evsyn.reporting.page.doubts import doubts_section
from evsyn.reporting.page.evidence import evidence_section
from evsyn.reporting.page.forests import forests_of
from evsyn.reporting.page.found import found_section
from evsyn.reporting.page.left_out import left_out_section
from evsyn.reporting.page.look import style_element
from evsyn.reporting.page.markup import Html, element, joined, opening, paragraphs, section, words
from evsyn.reporting.page.outcomes import outcome_sections
from evsyn.reporting.page.placing import placing_fields, placing_section
from evsyn.reporting.page.references import references_section
from evsyn.reporting.page.scripts import data_element, policy, script_element
from evsyn.reporting.page.unit_inside import inside_section
from evsyn.reporting.page.unit_outside import outside_section
from evsyn.reporting.page.unsaid import unsaid_section
from evsyn.reporting.report.content import ReportContent, UnitReport
from evsyn.reporting.told_outside import marks_for
from evsyn.terms import Audience
from evsyn.wording import report_page as say
from evsyn.wording.page import PageWords
from evsyn.wording.page_found import FOUND

#: A page that is mailed and opened on an old computer stays below 2 MB.
MOST_BYTES = 1_950_000


def page_html(content: ReportContent) -> str:
    """Return a report as one HTML file that needs nothing but a browser.

    Parameters
    ----------
    content : ReportContent
        What the report says. A unit's figures for outside, without a release, appear only as they
        may be told there.

    Notes
    -----
    The page fetches nothing, and its own policy forbids it to. Every number stands in it as text;
    its script only sorts, filters, shows sources and places typed counts.
    """
    fields = placing_fields(content)
    sections = _sections(content, fields)
    room = MOST_BYTES - len(_whole(content, fields, sections).encode("utf-8"))
    drawn = outcome_sections(content, forests_of(content, room))
    told = [one if one.name != "outcomes" else replace(one, body=drawn) for one in sections]
    return _whole(content, fields, told)


@dataclass(frozen=True, slots=True)
class _Section:
    """A section with its heading, its id and what it holds."""

    title: str
    name: str
    body: Html


def _sections(content: ReportContent, fields: dict[str, Any]) -> list[_Section]:
    """Return every section that holds something, in order, without the forest plots."""
    methods = section("methods", say.METHODS, paragraphs(content.methods))
    cautions = section("cautions", say.CAUTIONS, paragraphs(content.cautions))
    asked = [
        (say.QUESTION, "question", _question(content)),
        (say.ANSWER, "answer", answer_section(content)),
        *_unit(content),
        (say.OUTCOMES, "outcomes", outcome_sections(content, {})),
        (say.COMPARED, "compared", compared_section(content)),
        (FOUND, "search", found_section(content)),
        (say.EVIDENCE, "evidence", evidence_section(content)),
        (say.LEFT_OUT, "left-out", left_out_section(content)),
        (say.DOUBTS, "doubts", doubts_section(content)),
        (say.DISPUTED, "disputed", disputed_section(content)),
        (say.METHODS, "methods", methods),
        (say.REFERENCES, "references", references_section(content)),
        (say.UNSAID, "unsaid", unsaid_section(content)),
        (say.CAUTIONS, "cautions", cautions),
        (say.PLACE, "place", placing_section(fields)),
    ]
    return [_Section(*one) for one in asked if one[2]]


def _whole(content: ReportContent, fields: dict[str, Any], sections: Sequence[_Section]) -> str:
    plan = content.review.plan
    header = element(
        "header",
        _marks(content),
        element("h1", words(plan.title)),
        element("p", words(content.status), class_="status"),
    )
    main = element("main", joined(*(_with_way_back(one.body) for one in sections)), id="main")
    foot = element("footer", _marks(content), paragraphs(content.status))
    body = joined(
        element("a", words(say.SKIP), class_="skip", href="#answer"),
        header,
        _contents(sections),
        main,
        foot,
        data_element("figures", fields),
        script_element(),
    )
    return f"{_head(plan.title)}\n{opening('body')}\n{body}\n</body>\n</html>\n"


def _head(title: str) -> str:
    meta = [
        opening("meta", charset="utf-8"),
        opening("meta", http_equiv="Content-Security-Policy", content=policy()),
        opening("meta", name="viewport", content="width=device-width, initial-scale=1"),
        opening("meta", name="referrer", content="no-referrer"),
    ]
    inside = joined(*meta, element("title", words(title)), style_element())
    return f'<!DOCTYPE html>\n<html lang="en-GB">\n<head>\n{inside}\n</head>'


def _question(content: ReportContent) -> Html:
    asked = element("p", words(content.review.plan.question), class_="question")
    return section("question", say.QUESTION, asked)


def _with_way_back(body: Html) -> Html:
    back = element("a", words(say.BACK), href="#contents")
    return joined(body, element("p", back, class_="back"))


def _contents(sections: Sequence[_Section]) -> Html:
    links = [element("a", words(one.title), href=f"#{one.name}") for one in sections]
    inside = element("ol", *(element("li", link) for link in links))
    return element("nav", inside, id="contents", class_="contents", aria_label=say.CONTENTS)


def _marks(content: ReportContent) -> Html:
    """Return what must stand first and last: what is invented, and who may see it."""
    marks = []
    if content.invented:
        marks.append(element("p", words(_invented_words(content)), class_="invented"))
    if content.unit is not None:
        marks.append(element("p", words(_for_whom(content.unit)), class_="forwhom"))
    return joined(*marks)


def _invented_words(content: ReportContent) -> str:
    told, unit = PageWords(), content.unit
    if unit is None or unit.checked.unit.invented is content.review.invented:
        return told.invented
    return told.invented_unit if unit.checked.unit.invented else told.invented_studies


def _for_whom(unit: UnitReport) -> str:
    return marks_for(unit.checked, unit.audience)[0]


def _unit(content: ReportContent) -> list[tuple[str, str, Html]]:
    held = content.unit
    if held is None:
        return []
    made = inside_section if held.is_full else outside_section
    title = say.UNIT_INSIDE if held.audience is Audience.INSIDE else say.UNIT_OUTSIDE
    return [(title, "unit", made(content, held))]
