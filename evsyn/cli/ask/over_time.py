"""``evsyn ask over-time``: how the pool grew."""

from typing import Any

import click

from evsyn.cli.ask.pools import Asked, answer, asked_of_pools


@click.command(
    "over-time",
    short_help="What the pool was with the papers up to each year.",
    epilog="Example: evsyn ask over-time studies/demo perforation",
)
@asked_of_pools
def command(**given: Any) -> None:
    """Pool the papers up to each year of publication.

    It shows whether the answer has settled. It is no test of whether practice changed: for that,
    see the strata of the plan.
    """
    from evsyn.reporting.ask.ladders import over_time_ladder
    from evsyn.reporting.ask.over_time import grown_of, over_time_json, over_time_text

    answer(Asked(**given), grown_of, over_time_text, over_time_json, over_time_ladder)
