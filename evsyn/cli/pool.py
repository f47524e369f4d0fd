"""``evsyn pool``: pooled answers, overall and by level."""

from pathlib import Path
from typing import TYPE_CHECKING

import click

from evsyn.cli.names import outcome_names, stratum_names
from evsyn.cli.options import json_option, known, readable_review, review_argument, say, steps
from evsyn.cli.what_if_options import (
    disputed_option,
    readable_what_if,
    what_if_option,
    without_option,
)

if TYPE_CHECKING:
    from evsyn.extraction.review import Review


@click.command(
    "pool",
    short_help="Pool the counts of a review, overall and by level.",
    epilog="Example: evsyn pool studies/demo perforation --by intent",
)
@review_argument
@click.argument("outcomes", nargs=-1, shell_complete=outcome_names)
@click.option(
    "--by",
    "strata",
    multiple=True,
    shell_complete=stratum_names,
    help="Show this stratum; may be repeated.",
)
@click.option("--look-up", is_flag=True, help="List what to look up in each paper.")
@without_option
@what_if_option
@disputed_option
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
    without: tuple[str, ...],
    changes: tuple[str, ...],
    disputed: bool,
    as_json: bool,
    output: Path | None,
) -> None:
    """Pool OUTCOMES of the folder REVIEW; all of the plan's outcomes by default.

    Each answer opens with a sentence. "Read this" is the row to quote; "Headline" is the one most
    papers print. With an outcome named, every study, source, left-out count and smaller set is
    shown as well.

    --without and --what-if show the answers as they stand and as they would be, marked WHAT IF,
    and write no file; --disputed shows what each count could change. These three answer for all
    studies, and for the levels of the strata named with --by.
    """
    from evsyn.reporting.files import write_whole

    if disputed + bool(without or changes) + look_up > 1:
        raise click.UsageError(
            "--disputed, --look-up and --what-if with --without are separate: ask for one."
        )
    if output is not None and (without or changes):
        raise click.UsageError("What --what-if and --without show is not kept: leave out --output.")
    read = readable_review(review)
    for outcome in outcomes:
        known(outcome, read.plan.outcomes, "an outcome")
    for stratum in strata:
        known(stratum, read.plan.strata, "a stratum")
    chosen = tuple(dict.fromkeys(outcomes)) or tuple(read.plan.outcomes)
    if without or changes:
        text = _what_if(read, chosen, strata, changes, without, as_json=as_json)
    elif disputed:
        text = _disputed(read, chosen, strata, as_json=as_json)
    else:
        detail = bool(outcomes)
        text = _pooled(read, chosen, strata, detail=detail, look_up=look_up, as_json=as_json)
    if output is None:
        say(text)
    else:
        write_whole(output, f"{text}\n")
        say(f"Written: {output}")


def _pooled(
    review: "Review",
    outcomes: tuple[str, ...],
    strata: tuple[str, ...],
    *,
    detail: bool,
    look_up: bool,
    as_json: bool,
) -> str:
    from evsyn.cells.levels import with_stand_ins
    from evsyn.reporting.pool_page import pool_page_json, pool_page_text

    by = with_stand_ins(review.plan, strata or tuple(review.plan.strata))
    with steps(outcomes, "Pooling") as shown:
        if as_json:
            return pool_page_json(review, shown, by)
        return pool_page_text(review, shown, by, detail=detail, look_up=look_up)


def _what_if(
    review: "Review",
    outcomes: tuple[str, ...],
    strata: tuple[str, ...],
    changes: tuple[str, ...],
    without: tuple[str, ...],
    *,
    as_json: bool,
) -> str:
    from evsyn.pooling.review import questions
    from evsyn.reporting.pool_what_if import before_after, what_if_json, what_if_text

    asked = questions(review.plan, outcomes, strata)
    what_if = readable_what_if(review, asked, changes, without)
    found = before_after(review, asked, what_if)
    return (what_if_json if as_json else what_if_text)(review, found, what_if)


def _disputed(
    review: "Review", outcomes: tuple[str, ...], strata: tuple[str, ...], *, as_json: bool
) -> str:
    from evsyn.reporting.pool_disputed import disputed_json, disputed_text

    with steps(outcomes, "Disputing") as shown:
        return (disputed_json if as_json else disputed_text)(review, shown, strata)
