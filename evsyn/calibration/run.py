"""Simulate reviews of one layout, over processes, and measure every line."""

from collections.abc import Callable

import numpy as np
from numpy.random import SeedSequence

from evsyn.calibration.chunk import Asked, Chunk, end_to_end, simulate_chunk
from evsyn.calibration.layout import Layout
from evsyn.calibration.measures import mean_of, performance, share_of
from evsyn.calibration.result import (
    Calibration,
    LevelGap,
    Line,
    StrataCalibration,
    UnitCalibration,
)
from evsyn.calibration.strata_lines import LevelTests, level_columns
from evsyn.calibration.units import true_chances
from evsyn.effects.arguments import as_level
from evsyn.pooling.options import BETWEEN, INTERVAL, checked_between

SEED, REPLICATIONS, EXACT_REPLICATIONS = 74, 10_000, 1_000
#: A fixed number, so that the seeds of the shares do not depend on the number of workers.
CHUNKS = 20
#: A test rejects below this.
TEST_LEVEL = 0.05


def calibrate(
    layout: Layout,
    *,
    level: float = 0.95,
    between: str = BETWEEN,
    replications: int = REPLICATIONS,
    exact_replications: int = EXACT_REPLICATIONS,
    seed: int = SEED,
    workers: int | None = None,
    progress: Callable[[], object] | None = None,
) -> Calibration:
    """Simulate reviews with a layout and say how far each row can be trusted there.

    Parameters
    ----------
    layout : Layout
        Sizes of the studies, true rate and true spread.
    level : float
        Two-sided level of the intervals.
    between : str
        Between-study estimator of the headline row.
    replications : int
        Reviews pooled by the two-step rows, all in a few vectorised calls; at least 20.
    exact_replications : int
        Reviews pooled by the exact row and as the tool would choose, one at a time, which takes
        most of the time; at least 20.
    seed : int
        Seed of every draw, 0 or more.
    workers : int, optional
        Processes, as ``n_jobs`` of joblib. If left out, joblib decides: one, or as set around the
        call by ``joblib.parallel_config``, which may also name another backend.
    progress : callable, optional
        Called after each of ``CHUNKS`` shares.

    Returns
    -------
    Calibration
        The same to the last bit for any number of workers.

    Raises
    ------
    ValueError
        If an argument is out of range.

    References
    ----------
    Morris TP, White IR, Crowther MJ. Stat Med 2019;38:2074-2102 (measures and their errors).
    """
    checked_between("random", between, INTERVAL, as_level(level), models=("random",))
    if min(replications, exact_replications) < CHUNKS:
        raise ValueError(f"At least {CHUNKS} reviews are drawn for each row.")
    if seed < 0:
        raise ValueError(f"A seed is a whole number, 0 or more; got {seed}.")
    asked = Asked(layout, level, between, true_chances(layout))
    found = end_to_end(_chunks(asked, replications, exact_replications, seed, workers, progress))
    return Calibration(
        layout=layout,
        level=level,
        between=between,
        seed=seed,
        replications=replications,
        exact_replications=exact_replications,
        lines=tuple(performance(line, one, layout.mu) for line, one in found.lines.items()),
        strata=tuple(_strata(line, one, layout) for line, one in found.tests.items()),
        units=_units(found, layout),
    )


def _chunks(
    asked: Asked,
    replications: int,
    exact_replications: int,
    seed: int,
    workers: int | None,
    progress: Callable[[], object] | None,
) -> list[Chunk]:
    from joblib import Parallel, delayed

    shares = zip(
        SeedSequence(seed).spawn(CHUNKS), _split(replications), _split(exact_replications),
        strict=True,
    )  # fmt: skip
    jobs = (delayed(simulate_chunk)(asked, *share) for share in shares)
    if progress is None:
        return list(Parallel(n_jobs=workers)(jobs))
    chunks = []
    for chunk in Parallel(n_jobs=workers, return_as="generator")(jobs):
        chunks.append(chunk)
        progress()
    return chunks


def _split(reviews: int) -> list[int]:
    """Split into shares as even as whole numbers allow."""
    return [len(part) for part in np.array_split(np.arange(reviews), CHUNKS)]


def _strata(line: Line, found: LevelTests, layout: Layout) -> StrataCalibration:
    tested = np.isfinite(found.p)
    pairs = level_columns(layout.levels).pairs
    return StrataCalibration(
        line=line,
        reviews=tested.size,
        no_answer=share_of(~tested),
        rejected=share_of(found.p[tested] < TEST_LEVEL),
        gaps=tuple(
            LevelGap(first, second, mean_of(gap[np.isfinite(gap)]))
            for (first, second), gap in zip(pairs, found.gaps.T, strict=True)
        ),
    )


def _units(found: Chunk, layout: Layout) -> UnitCalibration:
    more, fewer, doubled = (mean_of(share) for share in found.shares.T)
    return UnitCalibration(
        cases=layout.unit_cases,
        reviews=found.verdict.size,
        no_verdict=share_of(found.verdict == 0),
        more=more,
        fewer=fewer,
        doubled=doubled,
    )
