"""``evsyn ask small``: do small studies differ from large ones."""

from pathlib import Path

import click

from evsyn.cli.ask.pools import level_option, outcome_argument, output_option, pools_asked, put
from evsyn.cli.options import json_option, readable_review, review_argument


@click.command(
    "small",
    short_help="Whether small studies differ from large ones.",
    epilog="Example: evsyn ask small studies/demo perforation",
)
@review_argument
@outcome_argument
@level_option
@json_option
@output_option
def command(
    review: Path, outcome: str, levels: tuple[str, ...], as_json: bool, output: Path | None
) -> None:
    """Test whether results hang on the size of the study; refused below ten studies.

    Single proportions are regressed on one over the size; comparisons of two treatments by
    Harbord's test, or by Peters' where their spread is not small.
    """
    from evsyn.pooling.review import answer_comparisons
    from evsyn.pooling.small_asked import small_comparison, small_shares
    from evsyn.reporting.ask.small import small_json, small_text

    read = readable_review(review)
    pools = pools_asked(read, outcome, levels)
    shares = [small_shares(base, level=read.plan.pooling.level) for base in pools]
    compared = [] if levels else [small_comparison(a) for a in answer_comparisons(read, [outcome])]
    put((small_json if as_json else small_text)(read, shares, compared), output)
