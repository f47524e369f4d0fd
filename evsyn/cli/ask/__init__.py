"""``evsyn ask``: questions asked of a pool."""

import click

from evsyn.cli.word_group import WordGroup

QUESTIONS = ("differ", "lean", "over-time", "vary", "regress", "small")


@click.command(
    "ask",
    cls=WordGroup,
    words=QUESTIONS,
    room="evsyn.cli.ask",
    short_help="Ask more of a pool: what carries it, what would move it.",
    epilog="Example: evsyn ask lean studies/demo perforation",
)
def command() -> None:
    """Ask a question of a pool of the folder REVIEW.

    Each answer says how many pools were looked at and how many tests were made: what stands out
    among many is often chance.
    """
