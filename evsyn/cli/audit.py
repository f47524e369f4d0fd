"""``evsyn audit``: a unit's own figures against pooled evidence."""

from pathlib import Path

import click

from evsyn.cli.options import audience_option, json_option, readable_review, readable_unit, say


@click.command(
    "audit",
    short_help="Set a unit's own figures against a review.",
    epilog=(
        "Example: evsyn audit studies/demo/unit-hollowmere.yaml --against studies/demo --for inside"
    ),
)
@click.argument("unit", type=click.Path(path_type=Path))
@click.option(
    "--against",
    "review",
    required=True,
    type=click.Path(path_type=Path),
    help="Folder of the review.",
)
@audience_option
@json_option
def command(unit: Path, review: Path, audience: str, as_json: bool) -> None:
    """Place each count of the file UNIT among what ordinary units of its size see.

    The comparison is with the range between settings, not with the average alone; each verdict
    says in the same sentence what so few cases could not have shown. No verdict is a pass mark.
    """
    from evsyn.reporting.audit_page import audit_json, audit_text
    from evsyn.terms import Audience

    read = readable_review(review)
    checked = readable_unit(unit, read)
    write = audit_json if as_json else audit_text
    say(write(read, checked, Audience(audience)))
