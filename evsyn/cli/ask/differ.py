"""``evsyn ask differ``: do the levels of a stratum differ."""

from pathlib import Path
from typing import TYPE_CHECKING

import click

from evsyn.cli.ask.pools import known_outcome, outcome_argument, output_option, put
from evsyn.cli.names import stratum_names
from evsyn.cli.options import json_option, known, readable_review, refuse, review_argument

if TYPE_CHECKING:
    from evsyn.extraction.review import Review
    from evsyn.reporting.ask.differ import CrossedAsked


@click.command(
    "differ",
    short_help="Whether the levels of a stratum differ, alone or crossed.",
    epilog=(
        "Example: evsyn ask differ studies/demo perforation --by intent "
        "--cross device_generation,intent"
    ),
)
@review_argument
@outcome_argument
@click.option(
    "--by",
    "strata",
    multiple=True,
    metavar="STRATUM",
    shell_complete=stratum_names,
    help="Compare the levels of this stratum; may be repeated. All of the plan's by default.",
)
@click.option(
    "--cross",
    metavar="A,B",
    help="Cross two strata, as device_generation,intent: each crossing, and both in one model.",
)
@json_option
@output_option
def command(
    review: Path,
    outcome: str,
    strata: tuple[str, ...],
    cross: str | None,
    as_json: bool,
    output: Path | None,
) -> None:
    """Compare the levels of a stratum, pair by pair and in one test of difference.

    One spread is common to the levels. The exact model is quoted where events are few; beside it
    stand the two-step test, what papers print, and lines that allow for studies at two levels.
    """
    from evsyn.cells.levels import level_names
    from evsyn.pooling.differ import stratum_asked
    from evsyn.pooling.review import answer_questions, questions
    from evsyn.reporting.ask.differ import differ_json, differ_text

    read = readable_review(review)
    plan = read.plan
    known_outcome(read, outcome)
    named = dict.fromkeys(known(name, plan.strata, "a stratum") for name in strata)
    crossed = _crossed(read, outcome, cross) if cross else None
    wanted = list(named) if named or crossed else list(plan.strata)
    if not wanted and not crossed:
        refuse("The plan of this review has no stratum, so there are no levels to compare.")
    answers = answer_questions(read, questions(plan, [outcome], wanted))
    asked = [
        stratum_asked(
            answers, outcome, name, list(level_names(plan.strata[name])), level=plan.pooling.level
        )
        for name in wanted
    ]
    put((differ_json if as_json else differ_text)(read, outcome, asked, crossed), output)


def _crossed(review: "Review", outcome: str, cross: str) -> "CrossedAsked":
    from evsyn.cells.cell import Question
    from evsyn.cells.levels import labelled_strata
    from evsyn.pooling.answer import Show
    from evsyn.pooling.crossed import crossed_model
    from evsyn.pooling.review import answer_questions
    from evsyn.reporting.ask.differ import CrossedAsked

    strata = labelled_strata(review.plan)
    names = [
        known(name.strip(), strata, "a stratum with levels in the extracts")
        for name in cross.split(",")
    ]
    if len(set(names)) != 2:
        refuse("--cross takes two different strata with a comma between, as A,B.")
    first, second = names
    crossings = {
        (one, two): Question(outcome, first, one, ((second, two),))
        for one in strata[first].levels
        for two in strata[second].levels
    }
    answers = answer_questions(review, list(crossings.values()))
    pools = {crossing: answers[question] for crossing, question in crossings.items()}
    found = crossed_model(
        {crossing: pooled.table.cells for crossing, pooled in pools.items()},
        level=review.plan.pooling.level,
        refused=any(pooled.answer.show is Show.REFUSED for pooled in pools.values()),
    )
    return CrossedAsked(first, second, pools, found)
