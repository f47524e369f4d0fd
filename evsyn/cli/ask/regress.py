"""``evsyn ask regress``: what an outcome goes with between studies."""

from pathlib import Path

import click

from evsyn.cli.ask.pools import outcome_argument, output_option, put
from evsyn.cli.options import json_option, known, readable_review, refuse, review_argument


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
@output_option
def command(
    review: Path, outcome: str, words: tuple[str, ...], as_json: bool, output: Path | None
) -> None:
    """Regress an outcome on one or several facts about its studies.

    Ten studies are wanted for each column. The exact model is quoted where events are few, and
    beside it stands restricted ML with t tests. Studies without a value are left out and listed.
    """
    from evsyn.cells.covariates import covariates_of
    from evsyn.pooling.on_covariates import regress_on
    from evsyn.reporting.ask.regress import regress_json, regress_text

    read = readable_review(review)
    known(outcome, read.plan.outcomes, "an outcome")
    covariates = covariates_of(read.plan)
    facts = {**read.plan.characteristics.study, **read.plan.characteristics.arm}
    for word in words:
        if word in facts and word not in covariates:
            refuse(
                f"'{word}' is noted as text, which is neither a number nor a level. Declare it in "
                "the plan as a number, or as a choice with levels."
            )
        known(word, covariates, "a word to regress on")
    asked = regress_on(read, outcome, [covariates[word] for word in dict.fromkeys(words)])
    put((regress_json if as_json else regress_text)(read, asked), output)
