"""``evsyn stale``: whether what was made is still true of what it was made from."""

from pathlib import Path

import click

from evsyn.cli.options import json_option, refuse, say


@click.command(
    "stale",
    short_help="Say which products are no longer true of their inputs.",
    epilog="Example: evsyn stale outputs/demo",
)
@click.argument("folders", nargs=-1, required=True, type=click.Path(path_type=Path))
@json_option
def command(folders: tuple[Path, ...], as_json: bool) -> None:
    """Compare each product in the FOLDERS with the files it was made from, and with this version.

    Exit code 1 if any is not still true.
    """
    from evsyn.reporting.stale import Staleness, manifest_folders, staleness
    from evsyn.reporting.stale_page import stale_json, stale_text
    from evsyn.wording.stale import NO_MANIFEST

    found: list[tuple[Path, Staleness]] = []
    for folder in folders:
        places = manifest_folders(folder)
        if not places:
            refuse(f"{folder} {NO_MANIFEST}")
        try:
            found += [(place, item) for place in places for item in staleness(place)]
        except ValueError as error:
            refuse(f"{error}.")
    say(stale_json(found) if as_json else stale_text(found))
    if not all(item.is_true for _, item in found):
        raise SystemExit(1)
