"""``evsyn audit``: a unit's own figures against pooled evidence."""

from pathlib import Path

import click

from evsyn.cli.options import (
    against_option,
    audience_option,
    json_option,
    readable_periods,
    readable_review,
    refuse,
    say,
    typed,
)


@click.command(
    "audit",
    short_help="Set a unit's own figures against a review.",
    epilog=(
        "Example: evsyn audit studies/demo/unit-hollowmere.yaml --against studies/demo --for inside"
    ),
)
@click.argument("unit", type=click.Path(path_type=Path))
@against_option
@audience_option
@click.option(
    "--before",
    type=click.Path(path_type=Path),
    help="The same unit's file of an earlier period, to set this one against.",
)
@click.option(
    "--into",
    "folder",
    type=click.Path(path_type=Path, file_okay=False),
    help="Write text, fields for programs and figures into this folder instead.",
)
@json_option
def command(
    unit: Path,
    review: Path,
    audience: str,
    before: Path | None,
    folder: Path | None,
    as_json: bool,
) -> None:
    """Place each count of the file UNIT among what ordinary units of its size see.

    The comparison is with the range between settings, not with the average alone; each verdict
    says in the same sentence what so few cases could not have shown. No verdict is a pass mark.
    """
    from evsyn.reporting.audit_fields import audit_json
    from evsyn.reporting.audit_folder import write_audit
    from evsyn.reporting.audit_page import audit_text
    from evsyn.terms import Audience
    from evsyn.wording.audience import TWO_PERIODS_OUTSIDE

    seen_by = Audience(audience)
    read = readable_review(review)
    checked, earlier = readable_periods(unit, before, read)
    releases = [
        checked.unit.full_release,
        *([] if earlier is None else [earlier.unit.full_release]),
    ]
    if seen_by is Audience.OUTSIDE and len(releases) > 1 and None in releases:
        refuse(TWO_PERIODS_OUTSIDE)
    if folder is None:
        write = audit_json if as_json else audit_text
        say(write(read, checked, seen_by, earlier))
        return
    files = [unit] if before is None else [unit, before]
    command = typed(without=files if seen_by is Audience.OUTSIDE else ())
    try:
        written = write_audit(
            folder, read, checked, seen_by, earlier, command=command, unit_files=files
        )
    except ValueError as error:
        refuse(f"Nothing was written: {error}.")
    for path in written:
        click.echo(f"Written: {path}")
