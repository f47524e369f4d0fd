"""One share of the reviews of a layout: drawn from its own seed and pooled by every line."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.random import SeedSequence

from evsyn.calibration.draw import Ints, draw_events
from evsyn.calibration.exact_lines import tool_answers
from evsyn.calibration.layout import Layout
from evsyn.calibration.measures import Intervals
from evsyn.calibration.result import Line
from evsyn.calibration.strata_lines import (
    LevelColumns,
    LevelTests,
    exact_tests,
    few_events,
    headline_tests,
    level_columns,
    restricted_ml_tests,
)
from evsyn.calibration.two_step_lines import two_step_line
from evsyn.calibration.units import TrueChances
from evsyn.effects.arguments import Floats


@dataclass(frozen=True, slots=True)
class Asked:
    """How reviews are drawn and pooled.

    Parameters
    ----------
    layout : Layout
        What is true.
    level : float
        Level of the intervals.
    between : str
        Between-study estimator of the headline.
    truth : TrueChances
        True chances of a new unit's counts.
    """

    layout: Layout
    level: float
    between: str
    truth: TrueChances


@dataclass(frozen=True, slots=True, eq=False)
class Chunk:
    """What each line answered to each review; flags of units as in ``ToolAnswers``."""

    lines: dict[Line, Intervals]
    tests: dict[Line, LevelTests]
    shares: Floats
    verdict: Floats


def simulate_chunk(asked: Asked, seed: SeedSequence, many: int, few: int) -> Chunk:
    """Draw reviews and pool them.

    Parameters
    ----------
    asked : Asked
        The layout and the methods.
    seed : SeedSequence
        The chunk's own.
    many, few : int
        Reviews pooled by the two-step rows, and reviews pooled by the exact row and by the tool's
        choice; where both are, they are the same reviews.
    """
    rng = np.random.default_rng(seed)
    layout, level, between = asked.layout, asked.level, asked.between
    sizes = np.array(layout.sizes, dtype=np.int64)
    events = draw_events(rng, layout, layout.sizes, max(many, few))
    tool = tool_answers(events[:few], layout.sizes, asked.truth, between=between, level=level)

    def two_step(estimator: str, interval: str) -> Intervals:
        return two_step_line(
            events[:many], sizes, between=estimator, interval=interval, level=level
        )

    tests = {}
    if layout.levels:
        columns = level_columns(layout.levels)
        drawn = draw_events(rng, layout, columns.sizes.tolist(), max(many, few))
        tests = _tests(drawn[:many], drawn[:few], columns, between)
    return Chunk(
        lines={
            Line.HEADLINE: two_step(between, "ordinary"),
            Line.RESTRICTED_ML: two_step("restricted_ml", "hartung_knapp_floor"),
            Line.EXACT: tool.exact,
            Line.READING: tool.reading,
        },
        tests=tests,
        shares=tool.shares,
        verdict=tool.verdict,
    )


def _tests(many: Ints, few: Ints, columns: LevelColumns, between: str) -> dict[Line, LevelTests]:
    exact, two_step = exact_tests(few, columns), restricted_ml_tests(few, columns)
    is_exact = np.array(few_events(few, columns), dtype=np.bool_)
    quoted = LevelTests(
        np.where(is_exact[:, np.newaxis], exact.gaps, two_step.gaps),
        np.where(is_exact, exact.p, two_step.p),
    )
    return {
        Line.HEADLINE: headline_tests(many, columns, between=between),
        Line.RESTRICTED_ML: restricted_ml_tests(many, columns),
        Line.EXACT: exact,
        Line.READING: quoted,
    }


def end_to_end(chunks: Sequence[Chunk]) -> Chunk:
    """Join chunks in their order."""

    def intervals(line: Line) -> Intervals:
        found = [chunk.lines[line] for chunk in chunks]
        return Intervals(
            np.concatenate([one.estimate for one in found]),
            np.concatenate([one.low for one in found]),
            np.concatenate([one.high for one in found]),
        )

    def tests(line: Line) -> LevelTests:
        found = [chunk.tests[line] for chunk in chunks]
        return LevelTests(
            np.concatenate([one.gaps for one in found]), np.concatenate([one.p for one in found])
        )

    return Chunk(
        lines={line: intervals(line) for line in chunks[0].lines},
        tests={line: tests(line) for line in chunks[0].tests},
        shares=np.concatenate([chunk.shares for chunk in chunks]),
        verdict=np.concatenate([chunk.verdict for chunk in chunks]),
    )
