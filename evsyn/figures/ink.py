"""Put a laid-out page on matplotlib axes; nothing is computed or chosen here."""

from typing import TYPE_CHECKING, Any

from evsyn.figures.measure import drawable, font_file, left_to_right
from evsyn.figures.shapes import Circle, Line, Page, Polygon, Polyline, Rect, Shape, Text

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

_POINTS_PER_INCH = 72
#: On and off, in units of the thickness.
_DASHES = (0, (4, 3))


def draw_page(page: Page, ax: "Axes | None" = None) -> "Axes":
    """Draw one page.

    Parameters
    ----------
    page : Page
        What to draw.
    ax : matplotlib Axes, optional
        Where; by default the whole of a new figure of the page's size, without pyplot. On axes of
        another size everything shrinks or grows with them.

    Returns
    -------
    matplotlib Axes
        The axes drawn on; ``ax.figure`` is the figure.
    """
    if ax is None:
        ax = _sheet(page).add_axes((0, 0, 1, 1))
    ax.set_axis_off()
    ax.set_xlim(0, page.width)
    ax.set_ylim(page.height, 0)
    ax.set_aspect("equal", anchor="NW")
    ax.apply_aspect()
    inches = ax.get_window_extent().width / ax.figure.dpi
    zoom = inches * _POINTS_PER_INCH / page.width
    shapes = (shape for group in page.groups for shape in group.shapes)
    for order, shape in enumerate(shapes):
        _draw(ax, shape, zoom, order + 1)
    return ax


def page_figure(page: Page) -> "Figure":
    """Return one page as a figure of its size, ready to be saved."""
    figure = _sheet(page)
    draw_page(page, figure.add_axes((0, 0, 1, 1)))
    return figure


def _sheet(page: Page) -> "Figure":
    from matplotlib.backends.backend_agg import FigureCanvasAgg
    from matplotlib.figure import Figure

    size = (page.width / _POINTS_PER_INCH, page.height / _POINTS_PER_INCH)
    figure = Figure(figsize=size, facecolor="white")
    FigureCanvasAgg(figure)
    return figure


def _draw(ax: "Axes", shape: Shape, zoom: float, order: int) -> None:
    from matplotlib import lines, patches

    match shape:
        case Text():
            _write(ax, shape, zoom, order)
        case Line(x1, y1, x2, y2, colour, thickness):
            ax.add_line(
                lines.Line2D(
                    (x1, x2),
                    (y1, y2),
                    color=colour,
                    linewidth=thickness * zoom,
                    solid_capstyle="butt",
                    zorder=order,
                )
            )
        case Polyline(points, colour, thickness, dashed):
            xs, ys = zip(*points, strict=True)
            ax.add_line(
                lines.Line2D(
                    xs,
                    ys,
                    color=colour,
                    linewidth=thickness * zoom,
                    linestyle=_DASHES if dashed else "solid",
                    solid_capstyle="butt",
                    dash_capstyle="butt",
                    solid_joinstyle="miter",
                    zorder=order,
                )
            )
        case Circle(x, y, radius, fill):
            ax.add_patch(patches.Circle((x, y), radius, facecolor=fill, linewidth=0, zorder=order))
        case Polygon():
            ax.add_patch(patches.Polygon(shape.points, **_paint(shape, zoom, order)))
        case Rect():
            if shape.fill is None and shape.stroke is None:
                return
            box = shape.box
            width, height = box.right - box.left, box.bottom - box.top
            paint = _paint(shape, zoom, order)
            ax.add_patch(patches.Rectangle((box.left, box.top), width, height, **paint))


def _write(ax: "Axes", text: Text, zoom: float, order: int) -> None:
    from matplotlib.font_manager import FontProperties

    face = FontProperties(fname=font_file(bold=text.bold), size=text.size * zoom)
    ax.text(
        text.x,
        text.y,
        left_to_right(drawable(text.words)),
        fontproperties=face,
        color=text.colour,
        alpha=text.opacity,
        ha={"start": "left", "middle": "center", "end": "right"}[text.anchor],
        va="baseline",
        rotation=text.rotation,
        rotation_mode="anchor",
        parse_math=False,
        usetex=False,
        zorder=order,
    )


def _paint(shape: Polygon | Rect, zoom: float, order: int) -> dict[str, Any]:
    thickness = shape.thickness * zoom
    return {
        "facecolor": shape.fill or "none",
        "edgecolor": shape.stroke or "none",
        "linewidth": thickness if shape.stroke is not None else 0.0,
        "linestyle": _DASHES if shape.dashed else "solid",
        "joinstyle": "miter",
        "zorder": order,
    }
