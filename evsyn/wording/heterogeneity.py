"""How far studies differ, in the order a reader needs it: spread first, I2 last."""

import math

from evsyn.pooling.answer import PoolAnswer, Row
from evsyn.pooling.heterogeneity import i2_test_based_interval
from evsyn.pooling.result import Pooled
from evsyn.terms import Interval
from evsyn.wording.numbers import percent, probability, span, spread

FEW_FOR_I2 = 7


def heterogeneity_sentence(answer: PoolAnswer) -> str:
    """Say how far the studies differ.

    Order: between-study standard deviation of the row that is read, with its interval; the range
    of study values; Q; I2 last, because with proportions it is high in nearly every review.

    Parameters
    ----------
    answer : PoolAnswer
        An answer with pooled rows.
    """
    shares = [x / n for x, n in zip(answer.events, answer.total, strict=True)]
    said = []
    if answer.reading is not None and not math.isnan(answer.reading.pooled.tau2):
        row = answer.reading.pooled
        limits = ""
        if not (math.isnan(row.tau2_low) or math.isnan(row.tau2_high)):
            limits = (
                f" (95% interval {spread(math.sqrt(row.tau2_low))} to "
                f"{spread(math.sqrt(row.tau2_high))})"
            )
        said.append(
            f"Spread between studies, log-odds standard deviation {spread(row.tau)}{limits}"
        )
        said.append(f"mean over settings, for expected counts, {percent(answer.reading.mean)}")
    said.append(f"study values run from {span(min(shares), max(shares))}")
    head = answer.rows.get(Row.HEADLINE)
    if head is not None and not math.isnan(head.q):
        said.append(
            f"headline: tau2 {head.tau2:.3f}, Q {head.q:.1f} on {head.df:.0f} degrees of freedom, "
            f"P {probability(head.p)}"
        )
        said.append(f"I2 from Q {percent(head.i2_from_q)}{_i2_limits(head)}")
    text = "; ".join(said) + "."
    if answer.k < FEW_FOR_I2:
        text += f" With {answer.k} studies I2 is biased and imprecise."
    elif head is not None and head.i2_from_q > 0.9:
        text += " An I2 above 90% is usual for large series: read the spread instead."
    return text


def _i2_limits(head: Pooled) -> str:
    low, high = i2_test_based_interval([head.q], [head.k], level=head.level)
    if math.isnan(low[0]):
        return ""
    return f" (test-based 95% interval {span(float(low[0]), float(high[0]))})"


def profile_sentence(interval: Interval | None) -> str:
    """Give the exact model's second interval; empty where there is none."""
    if interval is None:
        return ""
    return (
        "Exact model, by profile likelihood instead of t limits: "
        f"{span(interval.low, interval.high)}."
    )
