"""``evsyn strip``: each count of a unit among the counts ordinary new units see."""

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
from evsyn.cli.options import (
    against_option,
    audience_option,
    known,
    readable_review,
    readable_unit,
    refuse,
)


@click.command(
    "strip",
    short_help="Draw a unit's counts among those of ordinary units.",
    epilog=(
        "Example: evsyn strip studies/demo/unit-hollowmere.yaml --against studies/demo "
        "--outcome perforation --for inside -o strip.svg"
    ),
)
@click.argument("unit", type=click.Path(path_type=Path))
@against_option
@click.option(
    "--outcome",
    shell_complete=outcome_names,
    help="One outcome; else all that the unit reports.",
)
@click.option(
    "--by",
    "stratum",
    shell_complete=stratum_names,
    help="The whole and the levels of one stratum; else of all.",
)
@audience_option
@sheet_option
@output_option
def command(
    unit: Path,
    review: Path,
    outcome: str | None,
    stratum: str | None,
    audience: str,
    sheet: str,
    output: Path,
) -> None:
    """Draw the count strips of the file UNIT.

    Each column says how many of 100 ordinary new units with as many cases would see that count;
    a bar stands where counts begin to be called more, or fewer, than the range.
    """
    from evsyn.cells.levels import labelled_strata
    from evsyn.figures.strip import strip_layout
    from evsyn.reporting.audit_figures import strip_of
    from evsyn.reporting.told_outside import marks_for, tell_for
    from evsyn.terms import Audience
    from evsyn.wording.audience import STRIP_OUTSIDE

    check_extension(output)
    read = readable_review(review)
    if outcome is not None:
        known(outcome, read.plan.outcomes, "an outcome")
    if stratum is not None:
        known(stratum, labelled_strata(read.plan), "a stratum with levels")
    checked, seen_by = readable_unit(unit, read), Audience(audience)
    if seen_by is Audience.OUTSIDE and checked.unit.full_release is None:
        refuse(STRIP_OUTSIDE)
    mark, short_mark = marks_for(checked, seen_by)
    try:
        content = strip_of(
            read,
            checked,
            outcome,
            stratum=stratum,
            with_whole=True,
            tell=tell_for(checked, seen_by),
            mark=mark,
            short_mark=short_mark,
            is_dated=seen_by is Audience.INSIDE,
        )
    except ValueError as error:
        refuse(f"{unit}: {error}.")
    write_or_refuse(strip_layout(content, sheet_format(sheet)), output)
