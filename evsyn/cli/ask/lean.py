"""``evsyn ask lean``: does one study carry the pool."""

from typing import Any

import click

from evsyn.cli.ask.pools import Asked, answer, asked_of_pools


@click.command(
    "lean",
    short_help="What the pool would be if one study were out.",
    epilog="Example: evsyn ask lean studies/demo perforation --level intent=palliation",
)
@asked_of_pools
def command(**given: Any) -> None:
    """Leave out each study in turn and pool the others anew.

    For each study: its weight, the row to read without it, the shift, the spread without it, and
    how far it lies from the others.
    """
    from evsyn.pooling.lean import leaning_of
    from evsyn.reporting.ask.ladders import lean_ladder
    from evsyn.reporting.ask.lean import lean_json, lean_text

    answer(Asked(**given), leaning_of, lean_text, lean_json, lean_ladder)
