"""``evsyn report``: what people take away, as a page, slides or a pocket card."""

from pathlib import Path

import click

from evsyn.cli.options import (
    readable_review,
    readable_unit,
    refuse,
    review_argument,
    typed,
)

KINDS = ("page", "slides", "pocket", "figures")


@click.command(
    "report",
    short_help="Write a page, slides or a pocket card.",
    epilog="Example: evsyn report studies/demo --as page -o outputs/report",
)
@review_argument
@click.option(
    "--as",
    "kinds",
    multiple=True,
    required=True,
    type=click.Choice(KINDS),
    help="What to write; may be given several times. 'figures' are those of the slides, to paste.",
)
@click.option(
    "--unit",
    type=click.Path(path_type=Path),
    help="A unit file, whose figures stand in it.",
)
@click.option(
    "--for",
    "audience",
    type=click.Choice(["inside", "outside"]),
    help="With --unit: who will see it. No default.",
)
@click.option(
    "--template",
    type=click.Path(path_type=Path, dir_okay=False),
    help="For slides: your own .pptx, whose layouts are used.",
)
@click.option(
    "-o",
    "--output",
    type=click.Path(path_type=Path, file_okay=False),
    help="Folder to write into; else outputs/ and the name of the review.",
)
def command(
    review: Path,
    kinds: tuple[str, ...],
    unit: Path | None,
    audience: str | None,
    template: Path | None,
    output: Path | None,
) -> None:
    """Write what people take away of the folder REVIEW.

    The page is one file that opens in any browser without a network. The slides are native shapes
    and text. The pocket card is one side of paper, by the questions the floor asks.
    """
    from evsyn.reporting.report.content import report_content
    from evsyn.reporting.report.write import write_report
    from evsyn.terms import Audience

    if (unit is None) is not (audience is None):
        refuse("A unit's figures are for someone: give --unit and --for inside|outside together.")
    if template is not None and "slides" not in kinds:
        refuse("A template is for slides: give --as slides too.")
    read = readable_review(review)
    checked = None if unit is None else readable_unit(unit, read)
    seen_by = None if audience is None else Audience(audience)
    hidden = [unit] if unit is not None and seen_by is Audience.OUTSIDE else []
    folder = output or Path("outputs") / read.plan.review
    raw = None if template is None else template.read_bytes()
    try:
        written = write_report(
            folder,
            report_content(read, checked, seen_by),
            list(dict.fromkeys(kinds)),
            command=typed(without=hidden),
            unit_file=unit,
            template=raw,
        )
    except ValueError as error:
        refuse(f"Nothing was written: {error}.")
    for path in written:
        click.echo(f"Written: {path}")
