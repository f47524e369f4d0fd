"""The file is one that ECMA-376 (Office Open XML) allows, as far as programs are strict about it.

Orders of elements and rules of parts are those of ECMA-376, parts 1 and 2; from memory.
"""

import posixpath
import re
from io import BytesIO
from zipfile import ZipFile

import pytest
from lxml import etree

from evsyn.reporting.slides import slides_bytes
from tests.reporting.slides import opened as look
from tests.reporting.slides.test_talk import CONTENT
from tests.reporting.slides.test_template import hospital, saved

FILL = "noFill solidFill gradFill blipFill pattFill grpFill"
#: Elements of a kind, in the order the standard gives them; what is not listed is not written.
ORDERS = {
    "p:presentation": (
        "sldMasterIdLst notesMasterIdLst handoutMasterIdLst sldIdLst sldSz notesSz "
        "embeddedFontLst custShowLst photoAlbum custDataLst kinsoku defaultTextStyle "
        "modifyVerifier extLst"
    ),
    "p:sld": "cSld clrMapOvr transition timing extLst",
    "p:notes": "cSld clrMapOvr extLst",
    "p:sp": "nvSpPr spPr style txBody extLst",
    "p:cxnSp": "nvCxnSpPr spPr style extLst",
    "p:nvSpPr": "cNvPr cNvSpPr nvPr",
    "p:nvCxnSpPr": "cNvPr cNvCxnSpPr nvPr",
    "p:nvGrpSpPr": "cNvPr cNvGrpSpPr nvPr",
    "p:spPr": f"xfrm custGeom prstGeom {FILL} ln effectLst extLst",
    "p:txBody": "bodyPr lstStyle p",
    "a:xfrm": "off ext chOff chExt",
    "a:custGeom": "avLst gdLst ahLst cxnLst rect pathLst",
    "a:ln": f"{FILL} prstDash custDash round bevel miter headEnd tailEnd",
    "a:pPr": "lnSpc spcBef spcAft buClrTx buClr buSzTx buFontTx buFont buNone buChar tabLst defRPr",
    "a:rPr": f"ln {FILL} effectLst latin ea cs sym hlinkClick hlinkMouseOver rtl",
    "a:fld": "rPr pPr t",
    "a:r": "rPr t",
}
SPACES = {
    "a": "http://schemas.openxmlformats.org/drawingml/2006/main",
    "p": "http://schemas.openxmlformats.org/presentationml/2006/main",
    "r": look.RELATIONSHIPS,
}


@pytest.fixture(scope="module", params=["own", "hospital"])
def made(request) -> bytes:
    return slides_bytes(CONTENT, saved(hospital()) if request.param == "hospital" else None)


def written(made: bytes):
    """Return the parts that are written slide by slide, and the presentation."""
    start = ("ppt/slides/slide", "ppt/notesSlides/notesSlide", "ppt/presentation.xml")
    return {name: root for name, root in look.xml_parts(made).items() if name.startswith(start)}


def misplaced(root) -> list[str]:
    """Return the elements that stand where the standard does not have them."""
    told = []
    for kind, order in ORDERS.items():
        places = {name: place for place, name in enumerate(order.split())}
        for element in root.xpath(f"//{kind}", namespaces=SPACES):
            names = [etree.QName(child).localname for child in element]
            told += [f"{kind} holds {name}" for name in names if name not in places]
            found = [places[name] for name in names if name in places]
            told += [f"{kind}: {names}"] if found != sorted(found) else []
    return told


def test_elements_stand_in_the_order_of_the_standard(made):
    for name, root in written(made).items():
        assert misplaced(root) == [], name


def test_an_element_out_of_order_would_be_seen(made):
    (slide,) = [root for name, root in written(made).items() if name.endswith("/slide2.xml")]
    shape = slide.xpath("//p:sp[p:txBody]", namespaces=SPACES)[0]
    shape.append(shape[0])
    assert any("p:sp" in said for said in misplaced(slide))


def test_no_name_twice_and_every_part_has_its_kind(made):
    with ZipFile(BytesIO(made)) as package:
        names = package.namelist()
        assert package.testzip() is None
    assert names[0] == "[Content_Types].xml"
    # Names of parts are equal if they differ in case alone (part 2, 6.2.2).
    assert len({name.lower() for name in names}) == len(names)
    types = look.xml_parts(made)["[Content_Types].xml"]
    overrides = [one.get("PartName") for one in types if one.tag.endswith("}Override")]
    defaults = {one.get("Extension").lower() for one in types if one.tag.endswith("}Default")}
    assert len(set(overrides)) == len(overrides)
    assert {name.lstrip("/") for name in overrides} <= set(names)
    for name in names[1:]:
        assert f"/{name}" in overrides or name.rpartition(".")[2] in defaults, name


def related(made: bytes):
    """Return, for every part, its relationships by number: kind, and the part they lead to."""
    found = {}
    for name, root in look.xml_parts(made).items():
        if name.endswith(".rels"):
            folder, _, file = name.partition("_rels/")
            numbers = [one.get("Id") for one in root]
            assert len(set(numbers)) == len(numbers), name
            found[f"{folder}{file.removesuffix('.rels')}"] = {
                one.get("Id"): (one.get("Type").rpartition("/")[2], _led(folder, one))
                for one in root
            }
    return found


def _led(folder: str, one) -> str:
    if one.get("TargetMode") == "External":
        return one.get("Target")
    return posixpath.normpath(posixpath.join("/", folder, one.get("Target"))).lstrip("/")


def test_every_part_is_reached_and_slides_and_notes_have_what_they_rest_on(made):
    graph, names = related(made), set(look.parts(made))
    reached, ahead = set(), [""]
    while ahead:
        for _, target in graph.get(ahead.pop(), {}).values():
            if target in names and target not in reached:
                reached.add(target)
                ahead.append(target)
    parts = {name for name in names if not name.endswith((".rels", "[Content_Types].xml"))}
    assert parts == reached
    for name in parts:
        kinds = sorted(kind for kind, _ in graph.get(name, {}).values())
        if name.startswith("ppt/slides/"):
            assert kinds.count("slideLayout") == 1
            assert kinds.count("notesSlide") <= 1
        if name.startswith("ppt/notesSlides/"):
            assert kinds == ["notesMaster", "slide"]
            (slide,) = [led for kind, led in graph[name].values() if kind == "slide"]
            assert ("notesSlide", name) in graph[slide].values()


def test_the_presentation_lists_slides_and_notes_master_by_their_numbers(made):
    root, graph = written(made)["ppt/presentation.xml"], related(made)["ppt/presentation.xml"]
    (notes,) = root.xpath("./p:notesMasterIdLst/p:notesMasterId/@r:id", namespaces=SPACES)
    assert graph[notes][0] == "notesMaster"
    numbers = [int(one) for one in root.xpath("./p:sldIdLst/p:sldId/@id", namespaces=SPACES)]
    # Slides have numbers from 256 to 2147483647 (part 1, 19.7.13).
    assert all(256 <= number < 2**31 for number in numbers)
    listed = root.xpath("//*[local-name()='sectionLst']//*[local-name()='sldId']/@id")
    assert [int(one) for one in listed] == numbers
    keys = root.xpath("//*[local-name()='section']/@id")
    assert len(set(keys)) == len(keys)
    assert all(re.fullmatch(r"\{[0-9A-F]{8}(-[0-9A-F]{4}){3}-[0-9A-F]{12}\}", k) for k in keys)


def test_links_jump_to_slides_or_lead_to_the_web(made):
    graph, jumps = related(made), 0
    for name, root in written(made).items():
        for link in root.xpath("//a:hlinkClick", namespaces=SPACES):
            kind, target = graph[name][link.get(f"{{{look.RELATIONSHIPS}}}id")]
            if link.get("action") is None:
                assert kind == "hyperlink"
                assert target.startswith("https://")
            else:
                assert link.get("action") == "ppaction://hlinksldjump"
                assert kind == "slide"
                jumps += 1
    assert jumps > 5


def test_sizes_and_lengths_are_whole_and_within_what_the_standard_allows(made):
    for name, root in written(made).items():
        for size in root.xpath("//a:rPr/@sz", namespaces=SPACES):
            assert 100 <= int(size) <= 400_000, name
        for ext in root.xpath("//a:ext[@cx]", namespaces=SPACES):
            assert int(ext.get("cx")) >= 0, name
            assert int(ext.get("cy")) >= 0, name
        for alpha in root.xpath("//a:alpha/@val", namespaces=SPACES):
            assert 0 <= int(alpha) <= 100_000, name
        for turn in root.xpath("//a:xfrm/@rot", namespaces=SPACES):
            assert int(turn) == pytest.approx(float(turn)), name
        for width in root.xpath("//a:ln/@w", namespaces=SPACES):
            assert 0 <= int(width) <= 20_116_800, name
        for body in root.xpath("//p:txBody", namespaces=SPACES):
            assert body.xpath("./a:p", namespaces=SPACES), name
        for group in root.xpath("//p:grpSp | //p:spTree", namespaces=SPACES):
            heads = [etree.QName(child).localname for child in group[:2]]
            assert heads == ["nvGrpSpPr", "grpSpPr"], name
