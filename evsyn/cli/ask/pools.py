"""Which pools a question is asked of, as several questions read it from the command line."""

from collections.abc import Iterable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, TypeVar

import click

from evsyn.cli.names import outcome_names
from evsyn.cli.options import known, level_of

if TYPE_CHECKING:
    from evsyn.extraction.review import Review
    from evsyn.figures.ladder import LadderContent
    from evsyn.pooling.tables import PooledTable

_T = TypeVar("_T")

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
drawing_option = click.option(
    "-o",
    "--output",
    type=click.Path(path_type=Path, dir_okay=False),
    help="Write to this file instead; one that ends in .png, .svg or .pdf is drawn.",
)


def pools_asked(review: "Review", outcome: str, levels: Iterable[str]) -> "tuple[PooledTable, ...]":
    """Return the pools a question is asked of, or stop with the nearest known words."""
    from evsyn.cells.cell import Question
    from evsyn.pooling.review import answer_questions

    known(outcome, review.plan.outcomes, "an outcome")
    placed = [level_of(written, review) for written in levels]
    asked = [Question(outcome, *place) for place in placed] or [Question(outcome)]
    return tuple(answer_questions(review, asked).values())


def draw(content: "LadderContent", sheet: str, output: Path) -> None:
    """Draw one pool's answers and name the file."""
    from evsyn.cli.figure_options import sheet_format, write_or_refuse
    from evsyn.cli.options import refuse
    from evsyn.figures.ladder import ladder_layout
    from evsyn.wording.ask_ladder import NOTHING_TO_DRAW

    if content.base.estimate is None:
        refuse(NOTHING_TO_DRAW)
    write_or_refuse(ladder_layout(content, sheet_format(sheet)), output)


def only_pool(found: "Sequence[_T]", output: Path | None) -> "_T | None":
    """Return the pool to draw, or ``None`` where text is wanted; stop if there are several."""
    from evsyn.cli.figure_options import EXTENSIONS
    from evsyn.cli.options import refuse

    if output is None or output.suffix.lower() not in EXTENSIONS:
        return None
    if len(found) > 1:
        refuse("A drawing shows one pool. Give one --level, or none.")
    return found[0]


def put(text: str, output: Path | None) -> None:
    """Print, or write to a file and say where."""
    from evsyn.cli.options import say
    from evsyn.reporting.files import write_whole

    if output is None:
        say(text)
    else:
        write_whole(output, f"{text}\n")
        say(f"Written: {output}")
