"""What became of products since they were made, as text and as JSON."""

from collections.abc import Sequence
from pathlib import Path

from evsyn.reporting.json_text import json_text
from evsyn.reporting.pool_text import paragraph
from evsyn.reporting.stale import Staleness
from evsyn.terms import Audience
from evsyn.wording.stale import OUTSIDE, stale_sentence


def stale_text(found: Sequence[tuple[Path, Staleness]]) -> str:
    """Say of each product whether it is still true."""
    parts = [paragraph(_sentence(folder, item)) for folder, item in found]
    if any(item.product.audience == Audience.OUTSIDE for _, item in found):
        parts.append(paragraph(OUTSIDE))
    return "\n".join(parts)


def stale_json(found: Sequence[tuple[Path, Staleness]]) -> str:
    """Return the same as fields."""
    return json_text(
        {
            "stale": [
                {
                    "folder": folder.as_posix(),
                    "product": item.product.name,
                    "states": [str(state) for state in item.states],
                    "which": list(item.which),
                    "command": item.product.command,
                }
                for folder, item in found
            ]
        }
    )


def _sentence(folder: Path, item: Staleness) -> str:
    name = (folder / item.product.name).as_posix()
    return stale_sentence(name, list(item.states), item.which, item.product.command)
