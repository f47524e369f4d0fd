"""A talk as a PowerPoint file: native shapes, words that stay words, notes for the speaker."""

from collections.abc import Mapping, Sequence
from io import BytesIO
from typing import Any

from evsyn.figures.palette import BANDS, INK, INVENTED_GROUND, INVENTED_INK
from evsyn.figures.shapes import Box
from evsyn.reporting.report.content import ReportContent
from evsyn.reporting.slides.colours import fill
from evsyn.reporting.slides.numbering import number_xml
from evsyn.reporting.slides.package import untraceable
from evsyn.reporting.slides.places import placeholder
from evsyn.reporting.slides.presentation_xml import finish
from evsyn.reporting.slides.room import LEAST, Cover, fitted_title
from evsyn.reporting.slides.shapes_xml import EMU_PER_POINT, Pen
from evsyn.reporting.slides.slide import FigureBody, Paragraph, Run, Slide, TextBody
from evsyn.reporting.slides.story import foot_words, talk
from evsyn.reporting.slides.template import FOOT_INSET, Template, template_for
from evsyn.reporting.slides.words_xml import run_xml
from evsyn.wording.report_slides import INDEX_BACK

_SPACES = (
    'xmlns:a="http://schemas.openxmlformats.org/drawingml/2006/main" '
    'xmlns:p="http://schemas.openxmlformats.org/presentationml/2006/main" '
    'xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships"'
)


def slides_bytes(content: ReportContent, template: bytes | None = None) -> bytes:
    """Return a report as a talk.

    Parameters
    ----------
    content : ReportContent
        What the report says.
    template : bytes, optional
        A hospital's own .pptx or .potx; its title-only layout, sizes, typefaces and colours are
        used, and its slides dropped.

    Returns
    -------
    bytes
        A .pptx file; the same for the same content and template.

    Raises
    ------
    TemplateError
        If the template lacks what a talk needs.
    """
    foot = foot_words(content)
    made = template_for(template, f"{foot} {INDEX_BACK}")
    planned = talk(made.room, content)
    title = content.review.plan.title
    return written(made, planned, foot, title=title, is_marked=content.invented)


def written(
    made: Template, planned: Sequence[Slide], foot: str, *, title: str, is_marked: bool
) -> bytes:
    """Write slides as a PowerPoint file.

    Parameters
    ----------
    made : Template
        What they are written on; it is used up.
    planned : sequence of Slide
        The slides, in order.
    foot : str
        What stands under each.
    title : str
        Title of the file.
    is_marked : bool
        Whether the foot warns of what is invented.
    """
    slides = [
        made.presentation.slides.add_slide(made.cover if plan.is_cover else made.layout)
        for plan in planned
    ]
    by_key = {plan.key: slide for plan, slide in zip(planned, slides, strict=True) if plan.key}
    for number, (plan, slide) in enumerate(zip(planned, slides, strict=True), start=1):
        _Filled(made, slide, by_key, is_marked=is_marked).fill(plan, foot, number)
    parts = [(plan.section, slide.slide_id) for plan, slide in zip(planned, slides, strict=True)]
    finish(made.presentation, parts)
    held = BytesIO()
    made.presentation.save(held)
    return untraceable(held.getvalue(), title)


class _Filled:
    """One slide being filled."""

    def __init__(
        self, template: Template, slide: Any, by_key: Mapping[str, Any], *, is_marked: bool
    ) -> None:
        self.template, self.slide, self.by_key = template, slide, by_key
        self.is_marked = is_marked

    def fill(self, plan: Slide, foot: str, number: int) -> None:
        """Write title, body, number, foot and notes, in the order they are read."""
        made, room = self.template, self.template.room
        if plan.is_cover and room.cover is not None:
            self._cover(plan, room.cover, foot)
            return
        self._title(plan.title, room.title, room.title_size)
        if room.section is not None and plan.section:
            part = Paragraph((Run(plan.section),), bold=True)
            self._words([part], room.section, LEAST, "part", 0.0, colour=BANDS[0].strong)
        match plan.body:
            case TextBody(paragraphs, size, after):
                self._words(paragraphs, room.words, size, "words", after)
            case FigureBody(page, name, description):
                pen = Pen(room.body.left, room.body.top, made.scale, made.theme, self._last_id())
                self._append(pen.figure(page, name, description))
        own = number_xml(self.slide.slide_layout, self._last_id() + 1, number, LEAST * made.scale)
        if own:
            self._append(own)
        self._foot(foot, plan.back)
        self._notes(plan.notes)

    def _cover(self, plan: Slide, cover: Cover, foot: str) -> None:
        """Fill the slide to begin with, in the layout's own colours."""
        from pptx.enum.shapes import PP_PLACEHOLDER

        self._title(plan.title, cover.title, cover.title_size)
        if isinstance(plan.body, TextBody):
            size = plan.body.size * self.template.scale
            space = _space(plan.body.after * self.template.scale)
            words = [
                f"<a:p><a:pPr>{space}<a:buNone/></a:pPr>"
                + "".join(run_xml(run.words, size=size, bold=one.bold) for run in one.runs)
                + "</a:p>"
                for one in plan.body.paragraphs
            ]
            place = placeholder(self.slide, PP_PLACEHOLDER.SUBTITLE)
            _set_paragraphs(place.element.txBody, words)
        # A mark has its own ground; other words might not be seen on that of the layout.
        if self.is_marked:
            self._foot(foot, "")
        self._notes(plan.notes)

    def _foot(self, foot: str, back: str) -> None:
        led = (Run(" "), Run(INDEX_BACK, target=back)) if back else ()
        said = Paragraph((Run(foot), *led), bold=self.is_marked)
        self._words([said], self.template.room.foot, LEAST, "status", 0.0, is_foot=True)

    def _title(self, title: str, place: Box, largest: float) -> None:
        words, size = fitted_title(place, largest, title)
        shown = None if size == largest else size * self.template.scale
        body = self.slide.shapes.title.element.txBody
        _set_paragraphs(body, [f"<a:p>{run_xml(words, size=shown)}</a:p>"])

    def _words(
        self,
        paragraphs: Sequence[Paragraph],
        box: Box,
        size: float,
        name: str,
        after: float,
        *,
        colour: str = INK,
        is_foot: bool = False,
    ) -> None:
        made = self.template
        number, scale = self._last_id() + 1, made.scale
        marked = is_foot and self.is_marked
        ink = fill(INVENTED_INK if marked else colour, made.theme, words=True)
        ground = fill(INVENTED_GROUND, made.theme) if marked else "<a:noFill/>"
        inset = round(FOOT_INSET * scale * EMU_PER_POINT) if is_foot else 0
        left, top, width, height = (
            round(edge * scale * EMU_PER_POINT)
            for edge in (box.left, box.top, box.right - box.left, box.bottom - box.top)
        )
        space = _space(after * scale)
        said = "".join(
            f"<a:p><a:pPr>{space}<a:buNone/></a:pPr>"
            + "".join(self._run(run, size * scale, one.bold, ink) for run in one.runs)
            + "</a:p>"
            for one in paragraphs
        )
        self._append(
            f'<p:sp><p:nvSpPr><p:cNvPr id="{number}" name="{name}"/><p:cNvSpPr txBox="1"/><p:nvPr/>'
            f'</p:nvSpPr><p:spPr><a:xfrm><a:off x="{left}" y="{top}"/>'
            f'<a:ext cx="{width}" cy="{height}"/></a:xfrm><a:prstGeom prst="rect"><a:avLst/>'
            f'</a:prstGeom>{ground}</p:spPr><p:txBody><a:bodyPr wrap="square" lIns="{inset}" '
            f'tIns="{inset}" rIns="{inset}" bIns="{inset}" anchor="{"ctr" if is_foot else "t"}">'
            f"<a:noAutofit/></a:bodyPr><a:lstStyle/>{said}</p:txBody></p:sp>"
        )

    def _run(self, run: Run, size: float, bold: bool, ink: str) -> str:
        link = self._link(run)
        return run_xml(run.words, size=size, bold=bold, paint="" if link else ink, link=link)

    def _link(self, run: Run) -> str:
        from pptx.opc.constants import RELATIONSHIP_TYPE

        part = self.slide.part
        if run.target:
            number = part.relate_to(self.by_key[run.target].part, RELATIONSHIP_TYPE.SLIDE)
            return f'<a:hlinkClick r:id="{number}" action="ppaction://hlinksldjump"/>'
        if run.address:
            number = part.relate_to(run.address, RELATIONSHIP_TYPE.HYPERLINK, is_external=True)
            return f'<a:hlinkClick r:id="{number}"/>'
        return ""

    def _notes(self, notes: Sequence[str]) -> None:
        if not notes:
            return
        frame = self.slide.notes_slide.notes_text_frame
        if frame is not None:
            _set_paragraphs(frame._txBody, [f"<a:p>{run_xml(words)}</a:p>" for words in notes])

    def _last_id(self) -> int:
        return max(int(number) for number in self.slide.element.xpath(".//p:cNvPr/@id"))

    def _append(self, xml: str) -> None:
        self.slide.shapes._spTree.append(_parsed(xml))


def _space(after: float) -> str:
    return f'<a:spcAft><a:spcPts val="{round(100 * after)}"/></a:spcAft>'


def _parsed(xml: str) -> Any:
    """Read the XML of one element, whose tag closes at the first blank or bracket."""
    from pptx.oxml import parse_xml

    end = min(place for place in (xml.find(" "), xml.find(">")) if place > 0)
    return parse_xml(f"{xml[:end]} {_SPACES}{xml[end:]}")


def _set_paragraphs(body: Any, paragraphs: Sequence[str]) -> None:
    for old in body.xpath("./a:p"):
        body.remove(old)
    for xml in paragraphs:
        body.append(_parsed(xml))
