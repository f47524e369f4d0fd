"""``evsyn ask over-time``: how the pool grew."""

from pathlib import Path

import click

from evsyn.cli.ask.pools import level_option, outcome_argument, output_option, pools_asked, put
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
@output_option
def command(
    review: Path, outcome: str, levels: tuple[str, ...], as_json: bool, output: Path | None
) -> None:
    """Pool the papers up to each year of publication.

    It shows whether the answer has settled. It is no test of whether practice changed: for that,
    see the strata of the plan.
    """
    from evsyn.pooling.over_time import grown_over_time
    from evsyn.reporting.ask.over_time import over_time_json, over_time_text

    read = readable_review(review)
    found = [(base, grown_over_time(read, base)) for base in pools_asked(read, outcome, levels)]
    put((over_time_json if as_json else over_time_text)(read, found), output)
