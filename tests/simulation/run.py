"""Simulate many reviews of each layout, over processes, and keep means with their error."""

import multiprocessing
from collections.abc import Sequence
from concurrent.futures import ProcessPoolExecutor
from functools import partial
from typing import Any, TypeAlias

import numpy as np

from evsyn.effects.arguments import Floats
from evsyn.pooling.answer import PoolAnswer, Row
from evsyn.pooling.choose import answer_tables
from evsyn.pooling.options import BETWEEN
from evsyn.terms import Better
from tests.simulation.layout import CASES, Layout
from tests.simulation.rules import Rule, flagged, saw_little_spread

SEED, REPLICATIONS = 74, 500
MEASURES = ("more", "fewer", "doubled")

#: Reviews pooled in one call; more of them only take memory.
_BATCH = 20

Result: TypeAlias = dict[str, Any]


def simulate(
    layouts: Sequence[Layout], *, replications: int, seed: int = SEED, workers: int = 1
) -> list[Result]:
    """Return the results of each layout, in order.

    Parameters
    ----------
    layouts : sequence of Layout
        What is true.
    replications : int
        Reviews drawn of each layout, at least 2.
    seed : int
        Seed of every draw.
    workers : int
        Processes; their number changes no result.
    """
    one = partial(simulate_layout, replications=replications, seed=seed)
    if workers == 1:
        return [one(layout) for layout in layouts]
    fresh = multiprocessing.get_context("spawn")
    with ProcessPoolExecutor(workers, mp_context=fresh) as pool:
        return list(pool.map(one, layouts))


def simulate_layout(layout: Layout, *, replications: int, seed: int) -> Result:
    """Return how often units are flagged in one layout, with Monte Carlo standard errors.

    Notes
    -----
    No unit is drawn. For each review the true chances of the flagged counts are summed, so the
    only error is that of having drawn some reviews and not all.
    """
    tables = [layout.review(seed, number) for number in range(replications)]
    answers = [
        answer
        for start in range(0, replications, _BATCH)
        for answer in answer_tables(tables[start : start + _BATCH], between=BETWEEN, level=0.95)
    ]
    little = np.array([saw_little_spread(answer) for answer in answers])
    read = [None if answer.reading is None else answer.reading.row for answer in answers]
    result: Result = {
        "k": layout.k,
        "tau": layout.tau,
        "rate": layout.rate,
        "reviews": replications,
        "read_exact": read.count(Row.EXACT),
        "read_nothing": read.count(None),
        "saw_little_spread": int(little.sum()),
    }
    for cases in CASES:
        for rule in Rule:
            shares = np.array([_shares(layout, answer, cases, rule) for answer in answers])
            result[f"{rule}_{cases}"] = _summed_up(shares)
            if rule in (Rule.TOOL, Rule.PLUG_IN):
                result[f"{rule}_{cases}_little"] = _summed_up(shares[little])
    return result


def _shares(
    layout: Layout, answer: PoolAnswer, cases: int, rule: Rule
) -> tuple[float, float, float]:
    """Return the true chances of an ordinary unit called more, fewer, and a doubled one seen."""
    found = flagged(answer, cases, rule)
    more, fewer = found.shares(layout.ordinary[cases])
    at_double = found.shares(layout.at_double[cases])
    return more, fewer, at_double[0 if layout.better is Better.FEWER else 1]


def _summed_up(shares: Floats) -> dict[str, list[float] | None]:
    """Return mean and standard error of each measure; ``None`` with fewer than two reviews."""
    if len(shares) < 2:
        return dict.fromkeys(MEASURES)
    means = shares.mean(axis=0)
    errors = shares.std(axis=0, ddof=1) / np.sqrt(len(shares))
    pairs = zip(MEASURES, means.round(6), errors.round(6), strict=True)
    return {name: [float(mean), float(error)] for name, mean, error in pairs}
