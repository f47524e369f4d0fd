"""Which pools a question is asked of, as several questions read it from the command line."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, TypeVar

import click

from evsyn.cli.figure_options import sheet_option
from evsyn.cli.names import outcome_names
from evsyn.cli.options import (
    json_option,
    known,
    level_of,
    readable_review,
    refuse,
    review_argument,
)

if TYPE_CHECKING:
    from evsyn.extraction.review import Review
    from evsyn.figures.ladder import LadderContent
    from evsyn.pooling.tables import PooledTable

_T = TypeVar("_T")

outcome_argument = click.argument(
    "outcome", required=False, default="", shell_complete=outcome_names
)
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
_ASKED = (
    review_argument,
    outcome_argument,
    level_option,
    json_option,
    sheet_option,
    click.option(
        "-o",
        "--output",
        type=click.Path(path_type=Path, dir_okay=False),
        help="Write to this file instead; one that ends in .png, .svg or .pdf is drawn.",
    ),
)


@dataclass(frozen=True, slots=True)
class Asked:
    """What the arguments and options of a question hold."""

    review: Path
    outcome: str
    levels: tuple[str, ...]
    as_json: bool
    sheet: str
    output: Path | None


def asked_of_pools(command: Callable[..., None]) -> Callable[..., None]:
    """Give a verb the arguments and options of :class:`Asked`."""
    for option in reversed(_ASKED):
        command = option(command)
    return command


def answer(
    asked: Asked,
    find: "Callable[[Review, PooledTable], _T]",
    text: "Callable[[Review, Sequence[_T]], str]",
    fields: "Callable[[Review, Sequence[_T]], str]",
    ladder: "Callable[[Review, _T], LadderContent]",
) -> None:
    """Answer a question of each pool asked, as text, as fields or as a drawing.

    Parameters
    ----------
    asked : Asked
        What was typed.
    find : callable
        Takes the review and a pool, returns what is found.
    text, fields : callable
        Take the review and all that was found.
    ladder : callable
        Takes the review and what was found of one pool.
    """
    from evsyn.cli.figure_options import EXTENSIONS

    read = readable_review(asked.review)
    found = [find(read, base) for base in pools_asked(read, asked.outcome, asked.levels)]
    if asked.output is None or asked.output.suffix.lower() not in EXTENSIONS:
        put((fields if asked.as_json else text)(read, found), asked.output)
        return
    if len(found) > 1:
        refuse("A drawing shows one pool. Give one --level, or none.")
    _draw(ladder(read, found[0]), asked.sheet, asked.output)


def known_outcome(review: "Review", outcome: str) -> str:
    """Return the outcome, or stop with the nearest known one; without one, with all of them."""
    if not outcome:
        refuse(f"Name the outcome to ask of: {', '.join(review.plan.outcomes)}.")
    return known(outcome, review.plan.outcomes, "an outcome")


def pools_asked(review: "Review", outcome: str, levels: Iterable[str]) -> "tuple[PooledTable, ...]":
    """Return the pools a question is asked of, or stop with the nearest known words."""
    from evsyn.cells.cell import Question
    from evsyn.pooling.review import answer_questions

    known_outcome(review, outcome)
    placed = [level_of(written, review) for written in levels]
    asked = [Question(outcome, *place) for place in placed] or [Question(outcome)]
    return tuple(answer_questions(review, asked).values())


def _draw(content: "LadderContent", sheet: str, output: Path) -> None:
    from evsyn.cli.figure_options import sheet_format, write_or_refuse
    from evsyn.figures.ladder import ladder_layout
    from evsyn.wording.ask_ladder import NOTHING_TO_DRAW

    if content.base.estimate is None:
        refuse(NOTHING_TO_DRAW)
    write_or_refuse(ladder_layout(content, sheet_format(sheet)), output)


def put(text: str, output: Path | None) -> None:
    """Print, or write to a file and say where."""
    from evsyn.cli.options import say
    from evsyn.reporting.files import write_whole

    if output is None:
        say(text)
    else:
        write_whole(output, f"{text}\n")
        say(f"Written: {output}")
