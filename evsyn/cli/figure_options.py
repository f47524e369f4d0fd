"""What every verb that draws shares: the sheet, the file, and refusals in plain words."""

from pathlib import Path
from typing import TYPE_CHECKING

import click

from evsyn.cli.options import refuse

if TYPE_CHECKING:
    from evsyn.figures.formats import PageFormat
    from evsyn.figures.shapes import FigureLayout

EXTENSIONS = (".png", ".svg", ".pdf")

sheet_option = click.option(
    "--sheet",
    type=click.Choice(["page", "slide", "screen"]),
    default="page",
    show_default=True,
    help="An A4 page, a 16:9 slide with large type, or a screen.",
)
output_option = click.option(
    "-o",
    "--output",
    required=True,
    type=click.Path(path_type=Path),
    help="File to write: .png, .svg or .pdf.",
)


def check_extension(output: Path) -> None:
    """Stop where no figure can be written under that name."""
    if output.suffix.lower() not in EXTENSIONS:
        refuse(f"'{output.name}' must end in .png, .svg or .pdf.")


def sheet_format(sheet: str) -> "PageFormat":
    """Return the format of a sheet by its name."""
    from evsyn.figures.formats import A4, SLIDE, web

    return {"page": A4, "slide": SLIDE, "screen": web(900)}[sheet]


def write_or_refuse(layout: "FigureLayout", output: Path) -> None:
    """Write a figure and name its files, or say why it was not written."""
    from evsyn.figures.write import write_figure

    try:
        written = write_figure(layout, output)
    except OSError as error:
        refuse(f"The figure was not written: {_why(error, output)}.")
    except ValueError as error:
        refuse(f"The figure was not written: {error}.")
    for path in written:
        click.echo(f"Written: {path}")


def _why(error: OSError, output: Path) -> str:
    """Say in plain words why a file cannot be written."""
    if isinstance(error, IsADirectoryError):
        return f"{error.filename} is a folder; name a file in it"
    if isinstance(error, PermissionError):
        return f"there is no permission to write {output}"
    if isinstance(error, FileExistsError | NotADirectoryError):
        return f"{output.parent} is not a folder"
    return f"{output}: {error.strerror or error}"
