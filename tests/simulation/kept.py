"""The results that are kept, and what of them can be redone in a moment."""

import json
from pathlib import Path
from typing import Any

from tests.simulation.layout import LAYOUTS, Layout
from tests.simulation.run import Result, simulate

KEPT = Path(__file__).parent / "results.json"

#: Layouts whose first reviews are kept apart, so that a test can tell when results are stale.
SAMPLED = (
    Layout(5, 0.0, 0.074),
    Layout(5, 0.6, 0.93),
    Layout(7, 0.3, 0.30),
    Layout(9, 0.9, 0.03),
    Layout(30, 0.6, 0.074),
)
FIRST = 8


def all_results(*, replications: int, seed: int, workers: int) -> dict[str, Any]:
    """Simulate every layout, and the first reviews of some."""
    return {
        "seed": seed,
        "replications": replications,
        "layouts": simulate(LAYOUTS, replications=replications, seed=seed, workers=workers),
        "first_reviews": first_reviews(seed),
    }


def first_reviews(seed: int) -> list[Result]:
    """Simulate the first reviews of a few layouts."""
    return simulate(SAMPLED, replications=FIRST, seed=seed)


def read() -> dict[str, Any]:
    """Return the kept results."""
    kept: dict[str, Any] = json.loads(KEPT.read_text(encoding="utf-8"))
    return kept


def write(results: dict[str, Any]) -> None:
    """Keep results, one layout a line."""
    parts = []
    for name, value in results.items():
        if isinstance(value, list):
            rows = ",\n  ".join(json.dumps(row) for row in value)
            parts.append(f' "{name}": [\n  {rows}\n ]')
        else:
            parts.append(f' "{name}": {json.dumps(value)}')
    KEPT.write_text("{\n" + ",\n".join(parts) + "\n}\n", encoding="utf-8")
