"""Write a laid-out figure to files: whole or not at all, and the same bytes each time."""

import errno
import os
from collections.abc import Callable
from pathlib import Path

from evsyn.figures.ink import page_figure
from evsyn.figures.shapes import FigureLayout
from evsyn.figures.svg import svg_text

_DOTS_PER_INCH = 200


def write_figure(layout: FigureLayout, path: str | os.PathLike[str]) -> tuple[Path, ...]:
    """Write a figure as PNG, SVG or PDF, by the extension of the path.

    A PDF holds all pages. Of PNG and SVG the first page takes the path itself, later ones the
    same name with ``-2``, ``-3`` and so on. Files stand under their names only once all of them
    are complete. A missing folder is made.

    Parameters
    ----------
    layout : FigureLayout
        The figure.
    path : path
        Where to.

    Returns
    -------
    tuple of Path
        The files written.

    Raises
    ------
    ValueError
        If the extension is none of the three.
    OSError
        If it cannot be written there; it names the file or folder asked for.
    """
    target = Path(path)
    writer = _WRITERS.get(target.suffix.lower())
    if writer is None:
        known = ", ".join(_WRITERS)
        raise ValueError(f"a figure is written as {known}, not as {target.suffix or target.name!r}")
    number = 1 if target.suffix.lower() == ".pdf" else len(layout.pages)
    finals = [target, *(target.with_stem(f"{target.stem}-{i}") for i in range(2, number + 1))]
    target.parent.mkdir(parents=True, exist_ok=True)
    for final in finals:
        if final.is_dir():
            raise IsADirectoryError(errno.EISDIR, os.strerror(errno.EISDIR), str(final))
    drafts = [final.with_name(f".{final.name}.{os.getpid()}.part") for final in finals]
    try:
        for page, draft in enumerate(drafts):
            writer(layout, page, draft)
        for draft, final in zip(drafts, finals, strict=True):
            draft.replace(final)
    except OSError as error:
        if error.errno is None:
            raise
        # The name of a draft means nothing to whoever asked for the figure.
        raise type(error)(error.errno, error.strerror, str(target)) from error
    finally:
        for draft in drafts:
            draft.unlink(missing_ok=True)
    return tuple(finals)


def _write_svg(layout: FigureLayout, page: int, path: Path) -> None:
    with path.open("w", encoding="utf-8", newline="\n") as file:
        file.write(svg_text(layout, page))


def _write_png(layout: FigureLayout, page: int, path: Path) -> None:
    from matplotlib import rc_context

    figure = page_figure(layout.pages[page])
    # Hinting rounds each letter to whole dots, and lines come out longer than measured.
    with rc_context({"text.hinting": "no_hinting"}):
        figure.savefig(path, format="png", dpi=_DOTS_PER_INCH, metadata={"Software": None})


def _write_pdf(layout: FigureLayout, _page: int, path: Path) -> None:
    from matplotlib import rc_context
    from matplotlib.backends.backend_pdf import PdfPages

    undated = {"CreationDate": None, "Producer": None, "Creator": None, "Title": layout.title}
    # Type 42 keeps the letters as text that can be searched and edited.
    with rc_context({"pdf.fonttype": 42}), PdfPages(path, metadata=undated) as book:
        for page in layout.pages:
            book.savefig(page_figure(page))


_WRITERS: dict[str, Callable[[FigureLayout, int, Path], None]] = {
    ".png": _write_png,
    ".svg": _write_svg,
    ".pdf": _write_pdf,
}
