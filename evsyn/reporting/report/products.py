"""The products of a report, each a few files by name."""

from collections.abc import Callable, Mapping
from pathlib import Path
from tempfile import TemporaryDirectory

from evsyn.reporting.report.content import ReportContent

#: Gives the files of one product from the content and a template.
Maker = Callable[[ReportContent, bytes | None], Mapping[str, bytes]]


def product_files(
    kind: str, content: ReportContent, template: bytes | None = None
) -> Mapping[str, bytes]:
    """Return the files of one kind of product.

    Parameters
    ----------
    kind : str
        One of ``KINDS``.
    content : ReportContent
        What the report says.
    template : bytes, optional
        For slides: a hospital's own template.

    Raises
    ------
    KeyError
        If there is no such kind.
    ValueError
        If the template cannot be used.
    """
    stem = _stem(content)
    made = KINDS[kind](content, template)
    return {f"{stem}{name}": raw for name, raw in made.items()}


def _stem(content: ReportContent) -> str:
    """Name products by review, and by who may see them where they hold a unit's figures."""
    unit = content.unit
    name = content.review.plan.review
    return name if unit is None else f"{name}-{unit.checked.unit.unit}-{unit.audience}"


def _page(content: ReportContent, _: bytes | None) -> Mapping[str, bytes]:
    from evsyn.reporting.page.document import page_html

    return {".html": page_html(content).encode("utf-8")}


def _slides(content: ReportContent, template: bytes | None) -> Mapping[str, bytes]:
    from evsyn.reporting.slides.deck import slides_bytes

    return {".pptx": slides_bytes(content, template)}


def _figures(content: ReportContent, _: bytes | None) -> Mapping[str, bytes]:
    from evsyn.reporting.slides.paste import paste_figures

    return {f"-{name}": raw for name, raw in paste_figures(content).items()}


def _pocket(content: ReportContent, _: bytes | None) -> Mapping[str, bytes]:
    from evsyn.figures.write import write_figure
    from evsyn.reporting.pocket.layout import pocket_layout
    from evsyn.reporting.pocket.text import pocket_text

    with TemporaryDirectory() as folder:
        (path,) = write_figure(pocket_layout(content), Path(folder) / "card.pdf")
        drawn = path.read_bytes()
    return {"-pocket.pdf": drawn, "-pocket.txt": f"{pocket_text(content)}\n".encode()}


KINDS: dict[str, Maker] = {
    "page": _page,
    "slides": _slides,
    "pocket": _pocket,
    "figures": _figures,
}
