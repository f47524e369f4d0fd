"""``evsyn claim``: sentences someone wants to say, weighed."""

from pathlib import Path
from typing import TYPE_CHECKING

import click

from evsyn.cli.options import json_option, readable_review, readable_unit, refuse, say

if TYPE_CHECKING:
    from evsyn.extraction.guidelines import Guidelines
    from evsyn.extraction.load_claims import CheckedClaims
    from evsyn.extraction.review import Review


@click.command(
    "claim",
    short_help="Weigh the sentences of a talk against a review.",
    epilog="Example: evsyn claim studies/demo/claims.yaml --against studies/demo",
)
@click.argument("claims", type=click.Path(path_type=Path))
@click.option(
    "--against",
    "review",
    required=True,
    type=click.Path(path_type=Path),
    help="Folder of the review.",
)
@click.option(
    "--unit",
    type=click.Path(path_type=Path),
    help="A unit file, for sentences about the unit.",
)
@click.option(
    "--for",
    "audience",
    type=click.Choice(["inside", "outside"]),
    help="With --unit: who will hear the sentences. No default.",
)
@json_option
def command(
    claims: Path, review: Path, unit: Path | None, audience: str | None, as_json: bool
) -> None:
    """Weigh each sentence of the file CLAIMS, and say what can be said instead.

    A sentence is borne out, contradicted, more than the data can say, or about something of which
    nothing is held. Words of cause and the like are refused whatever the numbers are.
    """
    from evsyn.reporting.claims_page import claims_json, claims_text, weigh_all
    from evsyn.terms import Audience

    if (unit is None) is not (audience is None):
        refuse("Sentences about a unit are for someone: give --unit and --for inside|outside.")
    read = readable_review(review)
    checked, guidelines = _readable(claims, read)
    figures = None if unit is None else readable_unit(unit, read)
    heard_by = None if audience is None else Audience(audience)
    weighed = weigh_all(read, checked, guidelines, figures, heard_by)
    page = claims_json if as_json else claims_text
    say(page(read, checked, weighed, figures, heard_by))


def _readable(path: Path, review: "Review") -> "tuple[CheckedClaims, Guidelines | None]":
    """Return claims and guidelines without faults, or print every fault and stop."""
    from evsyn.extraction.load import UnreadableError
    from evsyn.extraction.load_claims import read_claims, read_guidelines
    from evsyn.reporting.findings import findings_text

    try:
        guidelines = read_guidelines(review.folder, review.plan)
    except UnreadableError as error:
        refuse(findings_text(str(review.folder), None, error.findings))
    try:
        return read_claims(path, review.plan, guidelines), guidelines
    except UnreadableError as error:
        refuse(findings_text(str(path), None, error.findings))
