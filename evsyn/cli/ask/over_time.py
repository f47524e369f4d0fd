"""``evsyn ask over-time``: how the pool grew."""

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
    "over-time",
    short_help="What the pool was with the papers up to each year.",
    epilog="Example: evsyn ask over-time studies/demo perforation",
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
    """Pool the papers up to each year of publication.

    It shows whether the answer has settled. It is no test of whether practice changed: for that,
    see the strata of the plan.
    """
    from evsyn.pooling.over_time import grown_over_time
    from evsyn.reporting.ask.ladders import over_time_ladder
    from evsyn.reporting.ask.over_time import over_time_json, over_time_text

    read = readable_review(review)
    found = [(base, grown_over_time(read, base)) for base in pools_asked(read, outcome, levels)]
    one = only_pool(found, output)
    if one is not None and output is not None:
        draw(over_time_ladder(read, *one), sheet, output)
        return
    put((over_time_json if as_json else over_time_text)(read, found), output)
