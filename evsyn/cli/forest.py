"""``evsyn forest``: the forest plot of one outcome."""

from pathlib import Path

import click

from evsyn.cli.options import known, readable_review, readable_unit, refuse, review_argument

EXTENSIONS = (".png", ".svg", ".pdf")


@click.command(
    "forest",
    short_help="Draw the forest plot of an outcome.",
    epilog="Example: evsyn forest studies/demo perforation --by intent -o perforation.svg",
)
@review_argument
@click.argument("outcome")
@click.option("--by", "stratum", help="One band for each level of this stratum.")
@click.option(
    "--unit",
    type=click.Path(path_type=Path),
    help="A unit file, whose rows stand in the bands they answer.",
)
@click.option(
    "--sheet",
    type=click.Choice(["page", "slide", "screen"]),
    default="page",
    show_default=True,
    help="An A4 page, a 16:9 slide with large type, or a screen.",
)
@click.option(
    "--show-two", is_flag=True, help="Where there are just two studies, show them added up."
)
@click.option(
    "-o",
    "--output",
    required=True,
    type=click.Path(path_type=Path, dir_okay=False),
    help="File to write: .png, .svg or .pdf.",
)
def command(
    review: Path,
    outcome: str,
    stratum: str | None,
    unit: Path | None,
    sheet: str,
    show_two: bool,
    output: Path,
) -> None:
    """Draw OUTCOME of the folder REVIEW.

    Where the row to read is not the headline, both stand together. A slide has room for about
    twenty rows; beyond that it shows the summaries and says so.
    """
    from evsyn.figures.forest import forest_layout
    from evsyn.figures.formats import A4, SLIDE, web
    from evsyn.figures.write import write_figure
    from evsyn.reporting.forest import forest_of

    if output.suffix.lower() not in EXTENSIONS:
        refuse(f"'{output.name}' must end in .png, .svg or .pdf.")
    read = readable_review(review)
    known(outcome, read.plan.outcomes, "an outcome")
    if stratum is not None:
        known(stratum, read.plan.strata, "a stratum")
    checked = None if unit is None else readable_unit(unit, read)
    content = forest_of(read, outcome, stratum, checked, show_two=show_two)
    sheets = {"page": A4, "slide": SLIDE, "screen": web(900)}
    try:
        written = write_figure(forest_layout(content, sheets[sheet]), output)
    except (OSError, ValueError) as error:
        refuse(f"The figure was not written: {error}")
    for path in written:
        click.echo(f"Written: {path}")
