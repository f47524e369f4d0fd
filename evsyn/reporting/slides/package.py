"""The package of a PowerPoint file: opened as a presentation, and written without a trace."""

from io import BytesIO
from xml.sax.saxutils import escape
from zipfile import ZIP_DEFLATED, ZipFile, ZipInfo

from evsyn.reporting.slides.words_xml import LANGUAGE, clean

_KIND = "application/vnd.openxmlformats-officedocument.presentationml."
_TEMPLATE, _PRESENTATION = f"{_KIND}template.main+xml", f"{_KIND}presentation.main+xml"
_TYPES = "[Content_Types].xml"
#: The earliest day a package can hold.
_NO_DAY = (1980, 1, 1, 0, 0, 0)
#: More than this, unpacked, is no template.
_MOST_BYTES = 200_000_000
_CORE = (
    '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n'
    '<cp:coreProperties xmlns:cp="http://schemas.openxmlformats.org/package/2006/metadata/'
    'core-properties" xmlns:dc="http://purl.org/dc/elements/1.1/"><dc:title>{title}</dc:title>'
    "<dc:language>{language}</dc:language></cp:coreProperties>"
)
_APP = (
    '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n'
    '<Properties xmlns="http://schemas.openxmlformats.org/officeDocument/2006/'
    'extended-properties"><Application>evsyn</Application></Properties>'
)


def openable(given: bytes) -> bytes:
    """Return a template as a presentation; a presentation as it is.

    Raises
    ------
    ValueError
        If it is no package, or unpacks to more than a template could hold.
    """
    with ZipFile(BytesIO(given)) as package:
        if sum(item.file_size for item in package.infolist()) > _MOST_BYTES:
            raise ValueError("too large for a template")
        parts = [(item.filename, package.read(item)) for item in package.infolist()]
    types = dict(parts).get(_TYPES, b"").decode("utf-8")
    if _TEMPLATE not in types:
        return given
    changed = types.replace(_TEMPLATE, _PRESENTATION).encode("utf-8")
    return _zipped([(name, changed if name == _TYPES else held) for name, held in parts])


def untraceable(made: bytes, title: str) -> bytes:
    """Return a presentation with no day, person or machine in it: the same bytes each time.

    Parameters
    ----------
    made : bytes
        The file as it was written.
    title : str
        Its title.
    """
    own = {
        "docProps/core.xml": _CORE.format(title=escape(clean(title)), language=LANGUAGE),
        "docProps/app.xml": _APP,
    }
    with ZipFile(BytesIO(made)) as package:
        parts = {item.filename: package.read(item) for item in package.infolist()}
    names = sorted(parts, key=lambda name: (name != _TYPES, name))
    kept = [(name, own[name].encode("utf-8") if name in own else parts[name]) for name in names]
    return _zipped(kept)


def _zipped(parts: list[tuple[str, bytes]]) -> bytes:
    held = BytesIO()
    with ZipFile(held, "w") as package:
        for name, content in parts:
            info = ZipInfo(name, _NO_DAY)
            info.create_system, info.compress_type = 0, ZIP_DEFLATED
            package.writestr(info, content)
    return held.getvalue()
