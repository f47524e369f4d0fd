"""What a presentation says of its slides as a whole, once all of them are filled."""

from collections.abc import Iterable, Sequence
from itertools import groupby
from typing import Any
from uuid import NAMESPACE_URL, uuid5

from evsyn.reporting.slides.words_xml import attribute

#: Names the list of sections among the extensions of a presentation (Microsoft, MS-PPTX; from
#: memory).
_LIST = "{521415D9-36F7-43E2-AB2F-B90AF26B5E84}"
_SPACES = (
    'xmlns:p="http://schemas.openxmlformats.org/presentationml/2006/main" '
    'xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships" '
    'xmlns:p14="http://schemas.microsoft.com/office/powerpoint/2010/main"'
)
#: Relationships by which a template would carry names of persons or pictures of old slides.
_TRACES = ("thumbnail", "custom-properties", "commentAuthors", "printerSettings")


def finish(presentation: Any, sections: Sequence[tuple[str, int]]) -> None:
    """List the parts of a talk and its notes master, and drop what a template says of persons.

    Parameters
    ----------
    presentation : Presentation
        With all its slides.
    sections : sequence of (str, int)
        For each slide in order, the part it belongs to and its number in the presentation; where
        one belongs to none, no parts are listed.
    """
    from pptx.oxml import parse_xml

    root = presentation.element
    if all(name for name, _ in sections):
        for old in root.xpath("./p:extLst"):
            root.remove(old)
        root.append(parse_xml(_sections(sections)))
    _list_notes_master(presentation)
    package = presentation.part.package
    for holder in (package, presentation.part):
        for number, relation in list(holder._rels.items()):
            if relation.reltype.endswith(_TRACES):
                holder._rels.pop(number)


def _list_notes_master(presentation: Any) -> None:
    """Name the notes master beside the slide masters; the library only relates to it."""
    from pptx.opc.constants import RELATIONSHIP_TYPE
    from pptx.oxml import parse_xml

    root = presentation.element
    if root.xpath("./p:notesMasterIdLst"):
        return
    for number, relation in presentation.part.rels.items():
        if relation.reltype == RELATIONSHIP_TYPE.NOTES_MASTER:
            (masters,) = root.xpath("./p:sldMasterIdLst")
            masters.addnext(
                parse_xml(
                    f'<p:notesMasterIdLst {_SPACES}><p:notesMasterId r:id="{number}"/>'
                    "</p:notesMasterIdLst>"
                )
            )


def _sections(sections: Iterable[tuple[str, int]]) -> str:
    told = ""
    for place, (name, slides) in enumerate(groupby(sections, key=lambda pair: pair[0])):
        own = str(uuid5(NAMESPACE_URL, f"section-{place}")).upper()
        listed = "".join(f'<p14:sldId id="{number}"/>' for _, number in slides)
        told += (
            f'<p14:section name={attribute(name)} id="{{{own}}}"><p14:sldIdLst>{listed}'
            "</p14:sldIdLst></p14:section>"
        )
    return (
        f'<p:extLst {_SPACES}><p:ext uri="{_LIST}"><p14:sectionLst>{told}</p14:sectionLst>'
        "</p:ext></p:extLst>"
    )
