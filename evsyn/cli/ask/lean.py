"""``evsyn ask lean``: does one study carry the pool."""

from pathlib import Path

import click

from evsyn.cli.ask.pools import (
    draw,
    drawing_option,
    level_option,
    only_pool,
    outcome_argument,
    pools_asked,
    put,
)
from evsyn.cli.figure_options import sheet_option
from evsyn.cli.options import json_option, readable_review, review_argument


@click.command(
    "lean",
    short_help="What the pool would be if one study were out.",
    epilog="Example: evsyn ask lean studies/demo perforation --level intent=palliation",
)
@review_argument
@outcome_argument
@level_option
@json_option
@sheet_option
@drawing_option
def command(
    review: Path,
    outcome: str,
    levels: tuple[str, ...],
    as_json: bool,
    sheet: str,
    output: Path | None,
) -> None:
    """Leave out each study in turn and pool the others anew.

    For each study: its weight, the row to read without it, the shift, the spread without it, and
    how far it lies from the others.
    """
    from evsyn.pooling.lean import leaning_of
    from evsyn.reporting.ask.ladders import lean_ladder
    from evsyn.reporting.ask.lean import lean_json, lean_text

    read = readable_review(review)
    found = [leaning_of(read, base) for base in pools_asked(read, outcome, levels)]
    one = only_pool(found, output)
    if one is not None and output is not None:
        draw(lean_ladder(read, one), sheet, output)
        return
    put((lean_json if as_json else lean_text)(read, found), output)
