"""``evsyn ask small``: do small studies differ from large ones."""

from typing import TYPE_CHECKING, Any

import click

from evsyn.cli.ask.pools import Asked, asked_of_pools, pools_asked, put
from evsyn.cli.figure_options import EXTENSIONS, sheet_format, write_or_refuse
from evsyn.cli.options import readable_review, refuse

if TYPE_CHECKING:
    from evsyn.extraction.review import Review
    from evsyn.pooling.small_asked import SmallShares


@click.command(
    "small",
    short_help="Whether small studies differ from large ones.",
    epilog="Example: evsyn ask small studies/demo perforation",
)
@asked_of_pools
def command(**given: Any) -> None:
    """Test whether results hang on the size of the study; refused below ten studies.

    Single proportions are regressed on one over the size; comparisons of two treatments by
    Harbord's test, or by Peters' where their spread is not small.
    """
    from evsyn.pooling.review import answer_comparisons
    from evsyn.pooling.small_asked import small_comparison, small_shares
    from evsyn.reporting.ask.small import small_json, small_text

    asked = Asked(**given)
    read = readable_review(asked.review)
    pools = pools_asked(read, asked.outcome, asked.levels)
    shares = [small_shares(base, level=read.plan.pooling.level) for base in pools]
    if asked.output is not None and asked.output.suffix.lower() in EXTENSIONS:
        _draw(read, shares, asked)
        return
    # A comparison has no levels.
    answers = () if asked.levels else answer_comparisons(read, [asked.outcome])
    compared = [small_comparison(one) for one in answers]
    put((small_json if asked.as_json else small_text)(read, shares, compared), asked.output)


def _draw(review: "Review", shares: "list[SmallShares]", asked: Asked) -> None:
    from evsyn.figures.bubbles import bubble_layout
    from evsyn.reporting.ask.bubbles import small_bubbles
    from evsyn.wording.ask_bubbles import ONE_POOL, SMALL_NOTHING

    if len(shares) > 1:
        refuse(ONE_POOL)
    if shares[0].reason is not None:
        refuse(SMALL_NOTHING)
    assert asked.output is not None
    layout = bubble_layout(small_bubbles(review, shares[0]), sheet_format(asked.sheet))
    write_or_refuse(layout, asked.output)
