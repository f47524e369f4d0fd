"""Words for intervals tried on known truths."""

from evsyn.calibration.result import Estimated, Line, LineCalibration
from evsyn.wording.calibration import Trust, held_sentence, trust


def line(reviews: int, *, held: float, without: float = 0.0) -> LineCalibration:
    none = Estimated(0.0, 0.0)
    return LineCalibration(
        Line.EXACT, reviews, Estimated(without, 0.0), Estimated(held, 0.0),
        none, none, none, none, none,
    )  # fmt: skip


def test_few_reviews_without_a_miss_do_not_prove_an_interval_too_wide():
    """3 over n (Hanley and Lippman-Hand, JAMA 1983;249:1743-1745): 0.075 of 40, 0.003 of 1,000."""
    assert trust(line(40, held=1.0), 0.95) is Trust.FAIR
    assert trust(line(1000, held=1.0), 0.95) is Trust.TOO_WIDE
    assert trust(line(1000, held=1.0, without=0.96), 0.95) is Trust.FAIR
    assert trust(line(40, held=0.0), 0.95) is Trust.TOO_SURE


def test_reviews_without_an_interval_are_no_part_of_the_share():
    said = held_sentence(line(40, held=0.9, without=0.36), 0.95, lead="the exact model")
    assert said.startswith("Of 100 reviews laid out like this in which it can be had, the 95% ")
    said = held_sentence(line(40, held=0.9), 0.95, lead="the exact model")
    assert said.startswith("Of 100 reviews laid out like this, the 95% interval")
