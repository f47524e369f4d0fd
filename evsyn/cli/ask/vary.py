"""``evsyn ask vary``: would another choice change the answer."""

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
    "vary",
    short_help="What other studies, estimators, models and scales would give.",
    epilog="Example: evsyn ask vary studies/demo perforation",
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
    """Pool by other choices, and show what moves.

    Other studies: full text only, without counts that are derived, assumed, partial or at another
    denominator or window, with shared patients kept or dropped. Another way: other estimators of
    the spread, intervals, models and scales.
    """
    from evsyn.pooling.vary import varied
    from evsyn.reporting.ask.ladders import vary_ladder
    from evsyn.reporting.ask.vary import vary_json, vary_text

    read = readable_review(review)
    found = [varied(read, base) for base in pools_asked(read, outcome, levels)]
    one = only_pool(found, output)
    if one is not None and output is not None:
        draw(vary_ladder(read, one), sheet, output)
        return
    put((vary_json if as_json else vary_text)(read, found), output)
