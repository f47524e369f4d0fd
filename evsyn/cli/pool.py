"""``evsyn pool``: pooled answers, overall and by level."""

from pathlib import Path

import click

from evsyn.cli.options import json_option, known, readable_review, review_argument, say, steps


@click.command(
    "pool",
    short_help="Pool the counts of a review, overall and by level.",
    epilog="Example: evsyn pool studies/demo perforation --by intent",
)
@review_argument
@click.argument("outcomes", nargs=-1)
@click.option("--by", "strata", multiple=True, help="Show this stratum; may be repeated.")
@click.option("--look-up", is_flag=True, help="List what to look up in each paper.")
@json_option
@click.option(
    "-o",
    "--output",
    type=click.Path(path_type=Path, dir_okay=False),
    help="Write to this file instead.",
)
def command(
    review: Path,
    outcomes: tuple[str, ...],
    strata: tuple[str, ...],
    look_up: bool,
    as_json: bool,
    output: Path | None,
) -> None:
    """Pool OUTCOMES of the folder REVIEW; all of the plan's outcomes by default.

    Each answer opens with a sentence. "Read this" is the row to quote; "Headline" is the one most
    papers print. With an outcome named, every study, source, left-out count and smaller set is
    shown as well.
    """
    from evsyn.cells.levels import with_stand_ins
    from evsyn.reporting.files import write_whole
    from evsyn.reporting.pool_page import pool_page_json, pool_page_text

    read = readable_review(review)
    for outcome in outcomes:
        known(outcome, read.plan.outcomes, "an outcome")
    for stratum in strata:
        known(stratum, read.plan.strata, "a stratum")
    chosen = tuple(dict.fromkeys(outcomes)) or tuple(read.plan.outcomes)
    by = with_stand_ins(read.plan, strata or tuple(read.plan.strata))
    with steps(chosen, "Pooling") as shown:
        if as_json:
            text = pool_page_json(read, shown, by)
        else:
            text = pool_page_text(read, shown, by, detail=bool(outcomes), look_up=look_up)
    if output is None:
        say(text)
    else:
        write_whole(output, f"{text}\n")
        say(f"Written: {output}")
