"""The figures of a report alone, for those who paste them into slides or papers of their own."""

from collections.abc import Iterator
from io import BytesIO

from evsyn.figures.forest import forest_layout
from evsyn.figures.formats import SLIDE, PageFormat
from evsyn.figures.funnel import funnel_layout
from evsyn.figures.ink import page_figure
from evsyn.figures.shapes import FigureLayout, Page
from evsyn.figures.strip import strip_layout
from evsyn.figures.svg import svg_text
from evsyn.reporting.forest import forest_of
from evsyn.reporting.report.content import ReportContent
from evsyn.reporting.report.foremost import foremost_strata
from evsyn.reporting.slides.unit_figures import outside_funnel, reported, unit_strips

#: One column of a printed page, 89 mm, as high as the figure needs.
COLUMN = PageFormat(252, None, 6, (7.5,), paged_size=7.5, stacked=True)
WIDTHS = {"slide": SLIDE, "column": COLUMN}
_DOTS_PER_INCH = 200


def paste_figures(content: ReportContent) -> dict[str, bytes]:
    """Return every figure of a report as SVG and as PNG, at the width of a slide and of a column.

    Nothing is drawn behind the figures, so they lie on any ground; each carries its own title,
    status line and mark of what is invented.

    Parameters
    ----------
    content : ReportContent
        What the report says.

    Returns
    -------
    dict of str to bytes
        Files by name, as ``forest-perforation-intent-slide.svg``; pages after the first end in
        ``-2``, ``-3`` and so on. The same content gives the same bytes.
    """
    files = {}
    for width, fmt in WIDTHS.items():
        for name, layout in _layouts(content, fmt):
            for number, page in enumerate(layout.pages):
                stem = f"{name}-{width}" + (f"-{number + 1}" if number else "")
                files[f"{stem}.svg"] = svg_text(layout, number, ground=False).encode("utf-8")
                files[f"{stem}.png"] = _png(page)
    return files


def _layouts(content: ReportContent, fmt: PageFormat) -> Iterator[tuple[str, FigureLayout]]:
    review = content.review
    for item in content.outcomes:
        names: list[str | None] = [stratum.name for stratum in foremost_strata(item, review.plan)]
        for name in names or [None]:
            drawn = forest_of(review, item.name, name, known=content.answers)
            yield f"forest-{item.name}-{name or 'all'}", forest_layout(drawn, fmt)
    unit = content.unit
    if unit is None:
        return
    for outcome in reported(unit, list(review.plan.outcomes)):
        strips = unit_strips(content, unit, outcome)
        if strips is not None:
            yield f"strip-{outcome}", strip_layout(strips, fmt)
        funnel = outside_funnel(content, unit, outcome)
        if funnel is not None:
            yield f"target-{outcome}", funnel_layout(funnel, fmt)


def _png(page: Page) -> bytes:
    """Draw a page on nothing; unhinted, as elsewhere, so that lines keep their measured length."""
    from matplotlib import rc_context

    held, figure = BytesIO(), page_figure(page)
    with rc_context({"text.hinting": "no_hinting"}):
        figure.savefig(
            held,
            format="png",
            dpi=_DOTS_PER_INCH,
            transparent=True,
            metadata={"Software": None},
        )
    return held.getvalue()
