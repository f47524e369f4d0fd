"""A seed gives every number, and neither workers nor backends change one bit."""

import subprocess
import sys

import joblib
import numpy as np
import pytest

from evsyn.audit.comparison import compare
from evsyn.calibration import Layout, calibrate
from evsyn.calibration.chunk import Asked, simulate_chunk
from evsyn.calibration.draw import draw_events, table_of
from evsyn.calibration.result import Line
from evsyn.calibration.run import CHUNKS
from evsyn.calibration.units import flagged_counts, true_chances
from evsyn.pooling.choose import answer_tables
from evsyn.terms import Better

LEVELS = (("old", (15, 20, 25)), ("new", (60, 80, 100)))
LAYOUT = Layout((15, 20, 25, 60, 80, 100), 0.1, 0.5, levels=LEVELS)
SMALL = {"replications": 203, "exact_replications": 21}


@pytest.fixture(scope="module")
def alone():
    return calibrate(LAYOUT, **SMALL, seed=5, workers=1)


@pytest.mark.parametrize("workers", [2, 3])
def test_the_number_of_workers_changes_nothing(alone, workers):
    assert calibrate(LAYOUT, **SMALL, seed=5, workers=workers) == alone


def test_a_backend_set_outside_is_used_and_changes_nothing(alone):
    seen = []
    with joblib.parallel_config(backend="threading", n_jobs=2):
        found = calibrate(LAYOUT, **SMALL, seed=5, progress=lambda: seen.append(1))
    assert found == alone
    assert len(seen) == CHUNKS


def test_another_seed_draws_other_reviews(alone):
    other = calibrate(LAYOUT, **SMALL, seed=6)
    assert other.line(Line.HEADLINE) != alone.line(Line.HEADLINE)


def test_every_line_has_the_reviews_asked_for(alone):
    asked = {Line.HEADLINE: 203, Line.RESTRICTED_ML: 203, Line.EXACT: 21, Line.READING: 21}
    assert {one.line: one.reviews for one in alone.lines} == asked
    assert {one.line: one.reviews for one in alone.strata} == asked
    assert alone.units.reviews == 21


def test_fewer_two_step_reviews_than_exact_ones_are_allowed():
    found = calibrate(LAYOUT, replications=20, exact_replications=22)
    assert [one.reviews for one in found.lines] == [20, 20, 22, 22]


@pytest.mark.parametrize(
    ("change", "told"),
    [
        ({"replications": 19}, "At least 20 reviews"),
        ({"exact_replications": 0}, "At least 20 reviews"),
        ({"seed": -1}, "0 or more; got -1"),
        ({"level": 1.0}, "level"),
        ({"between": "none"}, "between"),
    ],
)
def test_refusals(change, told):
    with pytest.raises(ValueError, match=told):
        calibrate(LAYOUT, **{**SMALL, **change})


def test_lines_are_those_the_tool_gives_to_the_same_counts():
    asked = Asked(LAYOUT, 0.9, "paule_mandel", true_chances(LAYOUT))
    seed = np.random.SeedSequence(8)
    found = simulate_chunk(asked, seed, 6, 6)
    events = draw_events(np.random.default_rng(seed), LAYOUT, LAYOUT.sizes, 6)
    tables = [table_of(row.tolist(), LAYOUT.sizes) for row in events]
    for place, answer in enumerate(answer_tables(tables, between="paule_mandel", level=0.9)):
        for line, row in (*answer.rows.items(), ("reading", answer.reading.pooled)):
            if line in list(Line):
                one = found.lines[Line(str(line))]
                assert one.estimate[place] == pytest.approx(row.estimate_on_scale, abs=1e-9)
                limits = (1 / (1 + np.exp(-side[place])) for side in (one.low, one.high))
                assert list(limits) == pytest.approx([row.low, row.high], abs=1e-9)


@pytest.mark.parametrize("layout", [LAYOUT, Layout((30,) * 7, 0.9, 0.0)])
def test_the_counts_flagged_are_those_the_verdict_names(layout):
    rng = np.random.default_rng(1)
    (events,) = draw_events(rng, layout, layout.sizes, 1)
    table = table_of(events.tolist(), layout.sizes)
    (answer,) = answer_tables([table], between="dersimonian_laird", level=0.95)
    reach = compare(0, 50, answer, better=Better.FEWER, years=1.0).limits
    found = flagged_counts(answer, 50)
    assert found.first_more == (51 if reach.first_more is None else reach.first_more)
    assert found.last_fewer == (-1 if reach.last_fewer is None else reach.last_fewer)


def test_fewer_than_five_studies_flag_nobody():
    found = calibrate(Layout((40, 60, 80, 90), 0.2, 0.3), replications=20, exact_replications=20)
    assert found.units.no_verdict.value == 1
    assert (found.units.more.value, found.units.doubled.value) == (0, 0)


def test_starting_loads_neither_joblib_nor_the_heavy_parts_of_scipy():
    done = subprocess.run(
        [sys.executable, "-c", "import sys, evsyn.calibration; print(*sys.modules)"],
        capture_output=True,
        text=True,
        check=True,
    )
    modules = done.stdout.split()
    assert "evsyn.calibration.run" in modules
    assert not {"joblib", "scipy.stats", "scipy.optimize", "pandas", "pydantic"} & set(modules)
