"""``evsyn forest``: the forest plot of one outcome."""

from pathlib import Path

import click

from evsyn.cli.figure_options import (
    check_extension,
    output_option,
    sheet_format,
    sheet_option,
    write_or_refuse,
)
from evsyn.cli.names import outcome_names, stratum_names
from evsyn.cli.options import known, readable_review, readable_unit, refuse, review_argument


@click.command(
    "forest",
    short_help="Draw the forest plot of an outcome.",
    epilog="Example: evsyn forest studies/demo perforation --by intent -o perforation.svg",
)
@review_argument
@click.argument("outcome", shell_complete=outcome_names)
@click.option(
    "--by",
    "strata",
    multiple=True,
    shell_complete=stratum_names,
    help="One band for each level of this stratum; only one.",
)
@click.option(
    "--unit",
    type=click.Path(path_type=Path),
    help="A unit file, whose rows stand in the bands they answer.",
)
@click.option(
    "--for",
    "audience",
    type=click.Choice(["inside", "outside"]),
    help="With --unit: who will see the figure. No default.",
)
@sheet_option
@click.option(
    "--show-two", is_flag=True, help="Where there are just two studies, show them added up."
)
@output_option
def command(
    review: Path,
    outcome: str,
    strata: tuple[str, ...],
    unit: Path | None,
    audience: str | None,
    sheet: str,
    show_two: bool,
    output: Path,
) -> None:
    """Draw OUTCOME of the folder REVIEW.

    Where the row to read is not the headline, both stand together. A slide has room for about
    twenty rows; beyond that it shows the summaries and says so.
    """
    from evsyn.figures.forest import forest_layout
    from evsyn.reporting.forest import forest_of
    from evsyn.terms import Audience
    from evsyn.wording.audience import NOT_RELEASED

    check_extension(output)
    if len(set(strata)) > 1:
        refuse("A forest plot shows one stratum: give --by once, and draw a figure for each.")
    stratum = strata[0] if strata else None
    if (unit is None) is not (audience is None):
        refuse("A unit's row is drawn for someone: give --unit and --for inside|outside together.")
    read = readable_review(review)
    known(outcome, read.plan.outcomes, "an outcome")
    if stratum is not None:
        known(stratum, read.plan.strata, "a stratum")
    checked = None if unit is None else readable_unit(unit, read)
    if checked is not None and audience == Audience.OUTSIDE and checked.unit.full_release is None:
        refuse(f"{unit}: {NOT_RELEASED}")
    seen_by = None if audience is None else Audience(audience)
    content = forest_of(read, outcome, stratum, checked, audience=seen_by, show_two=show_two)
    write_or_refuse(forest_layout(content, sheet_format(sheet)), output)
