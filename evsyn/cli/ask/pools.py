"""Which pools a question is asked of, as several questions read it from the command line."""

from collections.abc import Iterable
from pathlib import Path
from typing import TYPE_CHECKING

import click

from evsyn.cli.names import outcome_names
from evsyn.cli.options import known, level_of

if TYPE_CHECKING:
    from evsyn.extraction.review import Review
    from evsyn.pooling.tables import PooledTable

outcome_argument = click.argument("outcome", shell_complete=outcome_names)
level_option = click.option(
    "--level",
    "levels",
    multiple=True,
    metavar="STRATUM=LEVEL",
    help="Ask of this level instead of all studies; may be repeated.",
)
output_option = click.option(
    "-o",
    "--output",
    type=click.Path(path_type=Path, dir_okay=False),
    help="Write to this file instead.",
)


def pools_asked(review: "Review", outcome: str, levels: Iterable[str]) -> "tuple[PooledTable, ...]":
    """Return the pools a question is asked of, or stop with the nearest known words."""
    from evsyn.cells.cell import Question
    from evsyn.pooling.review import answer_questions

    known(outcome, review.plan.outcomes, "an outcome")
    placed = [level_of(written, review) for written in levels]
    asked = [Question(outcome, *place) for place in placed] or [Question(outcome)]
    return tuple(answer_questions(review, asked).values())


def put(text: str, output: Path | None) -> None:
    """Print, or write to a file and say where."""
    from evsyn.cli.options import say
    from evsyn.reporting.files import write_whole

    if output is None:
        say(text)
    else:
        write_whole(output, f"{text}\n")
        say(f"Written: {output}")
