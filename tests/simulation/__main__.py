"""Simulate, print the tables, and with ``--write`` keep the results and fill the page."""

import argparse
import os

from tests.simulation import kept, page
from tests.simulation.run import REPLICATIONS, SEED


def main() -> None:
    """Read the options and do as they say."""
    options = argparse.ArgumentParser(prog="python -m tests.simulation", description=__doc__)
    options.add_argument("--replications", type=int, default=REPLICATIONS, metavar="N")
    options.add_argument("--seed", type=int, default=SEED)
    options.add_argument("--workers", type=int, default=os.cpu_count() or 1)
    options.add_argument("--kept", action="store_true", help="use the kept results; no simulation")
    options.add_argument("--write", action="store_true", help="keep the results, fill the page")
    said = options.parse_args()
    if said.replications < 2:
        options.error("--replications must be 2 or more: one review has no standard error")
    if said.workers < 1:
        options.error("--workers must be 1 or more")
    results = (
        kept.read()
        if said.kept
        else kept.all_results(replications=said.replications, seed=said.seed, workers=said.workers)
    )
    for block in page.blocks(results).values():
        print(block, end="\n\n")
    if said.write:
        kept.write(results)
        page.write(results)


if __name__ == "__main__":
    main()
