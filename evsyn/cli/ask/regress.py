"""``evsyn ask regress``: what an outcome goes with between studies."""

from pathlib import Path
from typing import TYPE_CHECKING

import click

from evsyn.cli.ask.pools import known_outcome, outcome_argument, put
from evsyn.cli.figure_options import EXTENSIONS, sheet_format, sheet_option, write_or_refuse
from evsyn.cli.options import json_option, known, readable_review, refuse, review_argument

if TYPE_CHECKING:
    from evsyn.extraction.review import Review
    from evsyn.pooling.on_covariates import OnCovariates


@click.command(
    "regress",
    short_help="Whether the rate goes with year, size or another fact.",
    epilog="Example: evsyn ask regress studies/demo perforation --on year",
)
@review_argument
@outcome_argument
@click.option(
    "--on",
    "words",
    multiple=True,
    required=True,
    metavar="WORD",
    help=(
        "year (of publication), recruited (middle of recruitment), size (of the study), a stratum, "
        "or a characteristic of the plan; may be repeated."
    ),
)
@json_option
@sheet_option
@click.option(
    "-o",
    "--output",
    type=click.Path(path_type=Path, dir_okay=False),
    help="Write to this file instead; one that ends in .png, .svg or .pdf is drawn.",
)
def command(
    review: Path,
    outcome: str,
    words: tuple[str, ...],
    as_json: bool,
    sheet: str,
    output: Path | None,
) -> None:
    """Regress an outcome on one or several facts about its studies.

    Ten studies are wanted for each column. The exact model is quoted where events are few, and
    beside it stands restricted ML with t tests. Studies without a value are left out and listed.
    """
    from evsyn.cells.covariates import covariates_of
    from evsyn.pooling.on_covariates import regress_on
    from evsyn.reporting.ask.regress import regress_json, regress_text

    read = readable_review(review)
    known_outcome(read, outcome)
    covariates = covariates_of(read.plan)
    facts = {**read.plan.characteristics.study, **read.plan.characteristics.arm}
    for word in words:
        if word in facts and word not in covariates:
            refuse(
                f"'{word}' is noted as text, which is neither a number nor a level. Declare it in "
                "the plan as a number, or as a choice with levels."
            )
        known(word, covariates, "a covariate")
    asked = regress_on(read, outcome, [covariates[word] for word in dict.fromkeys(words)])
    if output is not None and output.suffix.lower() in EXTENSIONS:
        _draw(read, asked, sheet, output)
        return
    put((regress_json if as_json else regress_text)(read, asked), output)


def _draw(review: "Review", asked: "OnCovariates", sheet: str, output: Path) -> None:
    from evsyn.figures.bubbles import bubble_layout
    from evsyn.reporting.ask.bubbles import can_be_drawn, regress_bubbles
    from evsyn.wording.ask_bubbles import NOTHING_TO_DRAW

    if not can_be_drawn(asked):
        refuse(NOTHING_TO_DRAW)
    write_or_refuse(bubble_layout(regress_bubbles(review, asked), sheet_format(sheet)), output)
