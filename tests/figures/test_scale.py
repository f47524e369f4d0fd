"""The axis suits the outcome, and never cuts what must be seen."""

import pytest

from evsyn.figures.forest.scale import Axis, scale_for
from evsyn.figures.ticks import RateScale, tick_words
from evsyn.pooling.answer import Show
from tests.figures.made_up import band, content, studies, study


def test_rare_outcomes_start_at_zero_and_end_where_the_data_do() -> None:
    scale = scale_for(content(band(studies(20))))
    assert scale.start == 0
    assert 10 <= scale.end <= 50


@pytest.mark.parametrize("share", [0.005, 0.06, 0.3, 0.6, 0.93, 1.0])
@pytest.mark.parametrize("seed", range(5))
def test_every_observed_and_pooled_value_lies_on_the_axis(share: float, seed: int) -> None:
    estimate = min(0.93, max(0.01, share))
    item = band(studies(9, seed=seed, share=share), estimate=estimate, show=Show.SOME, unit=True)
    scale = scale_for(content(item))
    held = [row.estimate for row in item.observed]
    held += [limit for row in item.summaries for limit in (row.low, row.high)]
    held += list(item.prediction or ())
    assert all(
        scale.start - 1e-9 <= 100 * value <= scale.end + 1e-9 for value in held if value <= 1
    )


def test_one_long_interval_does_not_stretch_the_axis() -> None:
    lines = (*(study(4, 120) for _ in range(9)), study(0, 4))
    assert study(0, 4).high > 0.6
    assert scale_for(content(band(lines, estimate=0.03))).end <= 20


def test_high_outcomes_end_at_100_and_may_start_higher() -> None:
    scale = scale_for(content(band(studies(9, share=0.93), estimate=0.93, show=Show.SOME)))
    assert scale.end == 100
    assert 0 < scale.start <= 70


def test_an_outcome_all_over_the_place_gets_the_whole_axis() -> None:
    lines = (study(1, 40), study(20, 40), study(39, 40))
    assert scale_for(content(band(lines, show=Show.TWO))) == RateScale(0, 100, 20)


def test_no_counts_leave_the_whole_axis() -> None:
    assert scale_for(content(band((), show=Show.NOTHING))) == RateScale(0, 100, 20)


def test_no_event_anywhere_shows_how_far_the_rates_may_go() -> None:
    scale = scale_for(content(band((study(0, 20), study(0, 25)), show=Show.ALL_ZERO)))
    assert scale.start == 0
    assert scale.end >= 100 * study(0, 20).high


@pytest.mark.parametrize("share", [0.0005, 0.004, 0.05, 0.2, 0.5, 0.99])
def test_ticks_run_from_start_to_end_and_are_few(share: float) -> None:
    total = 4000
    scale = scale_for(content(band((study(round(share * total), total),), show=Show.ONE)))
    assert scale.ticks[0] == scale.start
    assert scale.ticks[-1] == scale.end
    assert 3 <= len(scale.ticks) <= 8


def test_positions_are_proportional_and_held_at_the_ends() -> None:
    axis = Axis(RateScale(0, 20, 5), 100, 300)
    assert axis.x(0.05) == pytest.approx(150)
    assert axis.x(0.5) == 300
    assert axis.beyond_right(0.5)
    assert not axis.beyond_right(0.2)
    high = Axis(RateScale(60, 100, 10), 0, 40)
    assert high.x(0.9) == pytest.approx(30)
    assert high.beyond_left(0.3)


def test_tick_values_have_no_needless_zeros() -> None:
    assert [tick_words(v) for v in (0.0, 0.5, 20.0, 100.0)] == ["0", "0.5", "20", "100"]
