"""Options that the verbs of ``evsyn new`` share."""

from collections.abc import Callable
from typing import Any

import click

ask_option = click.option(
    "--ask/--no-ask",
    "asks",
    default=None,
    help="Ask for what no option gives. Without either, it asks on a terminal alone.",
)
invented_option = click.option("--invented", is_flag=True, help="Mark the file as made up.")
level_option = click.option(
    "--level",
    "levels",
    multiple=True,
    metavar="[GROUP.]STRATUM=LEVEL",
    help="Level of a group, or of all of them, in a stratum of the plan; may be repeated.",
)


def count_option(example: str) -> Callable[[Any], Any]:
    """Return the option that gives a count, with an example of one."""
    return click.option(
        "--count",
        "counts",
        multiple=True,
        metavar="[GROUP.]OUTCOME=COUNT",
        help=f"As 'perforation={example}'; may be repeated.",
    )
