"""``evsyn ask vary``: would another choice change the answer."""

from typing import Any

import click

from evsyn.cli.ask.pools import Asked, answer, asked_of_pools


@click.command(
    "vary",
    short_help="What other studies, estimators, models and scales would give.",
    epilog="Example: evsyn ask vary studies/demo perforation",
)
@asked_of_pools
def command(**given: Any) -> None:
    """Pool by other choices, and show what moves.

    Other studies: full text only, without counts that are derived, assumed, partial or at another
    denominator or window, with shared patients kept or dropped. Another way: other estimators of
    the spread, intervals, models and scales.
    """
    from evsyn.pooling.vary import varied
    from evsyn.reporting.ask.ladders import vary_ladder
    from evsyn.reporting.ask.vary import vary_json, vary_text

    answer(Asked(**given), varied, vary_text, vary_json, vary_ladder)
