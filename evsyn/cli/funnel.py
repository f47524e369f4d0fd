"""``evsyn funnel``: the performance funnel of a unit, or of several."""

from pathlib import Path
from typing import TYPE_CHECKING

import click

from evsyn.cli.figure_options import (
    check_extension,
    output_option,
    sheet_format,
    sheet_option,
    write_or_refuse,
)
from evsyn.cli.names import outcome_names
from evsyn.cli.options import (
    against_option,
    audience_option,
    known,
    level_of,
    readable_review,
    readable_unit,
    refuse,
)

if TYPE_CHECKING:
    from evsyn.extraction.load import CheckedUnit


@click.command(
    "funnel",
    short_help="Draw the performance funnel of one unit or several.",
    epilog=(
        "Example: evsyn funnel studies/demo/unit-hollowmere.yaml --against studies/demo "
        "--outcome perforation --level intent=palliation --for inside -o funnel.svg"
    ),
)
@click.argument("units", nargs=-1, required=True, type=click.Path(path_type=Path))
@against_option
@click.option(
    "--outcome", required=True, shell_complete=outcome_names, help="An outcome of the plan."
)
@click.option(
    "--level",
    help="A level, as intent=palliation: the funnel is drawn around the range of ordinary units. "
    "Else the whole of each unit is drawn around the plan's fixed target.",
)
@audience_option
@sheet_option
@output_option
def command(
    units: tuple[Path, ...],
    review: Path,
    outcome: str,
    level: str | None,
    audience: str,
    sheet: str,
    output: Path,
) -> None:
    """Draw the unit files UNITS, several units or several periods, by their number of cases.

    This is not the funnel plot of small studies: it shows units, not studies, and says nothing of
    what was not published.
    """
    from evsyn.cells.cell import Question
    from evsyn.figures.funnel import funnel_layout
    from evsyn.reporting.range_funnel import range_funnel_of
    from evsyn.reporting.target_funnel import target_funnel_of
    from evsyn.reporting.told_outside import marks_for, tell_for
    from evsyn.terms import Audience
    from evsyn.wording.audience import RANGE_OUTSIDE

    check_extension(output)
    read, seen_by = readable_review(review), Audience(audience)
    known(outcome, read.plan.outcomes, "an outcome")
    checked = [readable_unit(path, read) for path in units]
    if seen_by is Audience.OUTSIDE:
        _refuse_outside(checked)
    (mark, short_mark), tell = marks_for(checked[0], seen_by), tell_for(checked[0], seen_by)
    if level is None:
        if outcome not in read.plan.audit.targets:
            refuse(
                f"The plan names no fixed target for '{outcome}' (audit: targets). A target is set "
                "before the figures are seen; or give a --level, for the range of ordinary units."
            )
        content = target_funnel_of(
            read, checked, outcome, tell=tell, mark=mark, short_mark=short_mark
        )
    else:
        if seen_by is Audience.OUTSIDE and checked[0].unit.full_release is None:
            refuse(RANGE_OUTSIDE)
        try:
            question = Question(outcome, *level_of(level, read))
            content = range_funnel_of(
                read, checked, question, tell=tell, mark=mark, short_mark=short_mark
            )
        except ValueError as error:
            refuse(f"The figure was not drawn: {error}.")
    write_or_refuse(funnel_layout(content, sheet_format(sheet)), output)


def _refuse_outside(checked: "list[CheckedUnit]") -> None:
    """Outside, stop where several files stand together: each is told by a rule of its own."""
    if len(checked) > 1:
        refuse("Outside, one unit and one period a figure: together they could be told apart.")
