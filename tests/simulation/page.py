"""The parts of the page that are made from results, each between two markers."""

from pathlib import Path
from typing import Any

from tests.simulation import summary, tables
from tests.simulation.results import Asked, Results

PAGE = Path(__file__).parents[2] / "docs" / "explanation" / "how-often-a-unit-is-flagged.md"


def blocks(kept: dict[str, Any]) -> dict[str, str]:
    """Return each made part of the page by its name."""
    results = Results(kept)
    return {
        "in short": summary.in_short(results),
        "runs": summary.errors(results),
        "verdict, unfavourable": tables.by_studies(results, Asked.UNFAVOURABLE),
        "rules, unfavourable": tables.by_rule(results, Asked.UNFAVOURABLE),
        "rules, favourable": tables.by_rule(results, Asked.FAVOURABLE),
        "next to no spread": tables.next_to_no_spread(results),
        "spreads": tables.spreads(),
        "layouts, doubled": tables.by_layout(results, Asked.DOUBLED),
        "layouts, unfavourable": tables.by_layout(results, Asked.UNFAVOURABLE),
        "layouts, favourable": tables.by_layout(results, Asked.FAVOURABLE),
    }


def filled(text: str, kept: dict[str, Any]) -> str:
    """Return the page with every made part put between its markers.

    Raises
    ------
    ValueError
        If the page lacks the markers of a part.
    """
    for name, block in blocks(kept).items():
        first, last = f"<!-- simulated: {name} -->", "<!-- end -->"
        before, found, after = text.partition(first)
        if not found or last not in after:
            raise ValueError(f"{PAGE.name} has no place marked {first} ... {last}")
        text = f"{before}{first}\n\n{block}\n\n{last}{after.partition(last)[2]}"
    return text


def write(kept: dict[str, Any]) -> None:
    """Fill the page."""
    PAGE.write_text(filled(PAGE.read_text(encoding="utf-8"), kept), encoding="utf-8")
