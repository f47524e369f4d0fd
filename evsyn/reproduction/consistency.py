"""What does not fit within the print itself, whatever the rows are."""

import math
from collections.abc import Iterator, Sequence

import numpy as np
from scipy import special

from evsyn.pooling.egger import egger
from evsyn.reproduction.effects import effects_of
from evsyn.reproduction.printed_number import PrintedNumber, printed_number
from evsyn.reproduction.record import PrintedLine, PublishedPooling
from evsyn.reproduction.rows import Kind, Rows
from evsyn.reproduction.variants import Variant
from evsyn.terms import Finding, Severity

P_NOT_OF_INTERVAL = "p-not-of-interval"
P_NOT_OF_Q = "p-not-of-q"
I2_NOT_OF_Q = "i2-not-of-q"
EGGER_UNLOGGED = "egger-unlogged"

#: Printed and unlogged t of Egger's test are taken for the same within this share: the limits the
#: authors used were rounded in a way that cannot be known.
_NEAR = 0.05


def inconsistencies(
    pooling: PublishedPooling, rows: Rows, found: Sequence[Variant]
) -> Iterator[Finding]:
    """Yield what printed numbers say against each other.

    Parameters
    ----------
    pooling : PublishedPooling
        What is printed.
    rows : Rows
        Its rows.
    found : sequence of Variant
        The variants that give most of it: they say by which distribution P goes with an interval.
    """
    printed = pooling.printed
    groups = {group.group: group for group in printed.groups}
    lines = {} if printed.overall is None else {"": printed.overall}
    normal = any(variant.interval == "ordinary" for variant in found)
    for name, line in {**lines, **groups}.items():
        if rows.kind is not Kind.PROPORTION:
            df = math.inf if normal else rows.number_of(name) - 1
            yield from _p_of_interval(line, pooling, df)
        yield from _p_of_q(line)
        yield from _i2_of_q(line)
    yield from _unlogged(pooling, rows, found)


def _p_of_interval(line: PrintedLine, pooling: PublishedPooling, df: float) -> Iterator[Finding]:
    if None in (line.estimate, line.low, line.high, line.p_effect):
        return
    estimate, low, high = (
        _ends(printed_number(str(text))) for text in (line.estimate, line.low, line.high)
    )
    if pooling.measure.is_ratio:
        if min(estimate[0], low[0], high[0]) <= 0:
            return
        estimate, low, high = (np.log(ends) for ends in (estimate, low, high))
    widths = (high[0] - low[1], high[1] - low[0])
    nearest = 0.0 if estimate[0] * estimate[1] < 0 else float(abs(estimate).min())
    if widths[0] <= 0 or df < 1:
        return
    upper = special.ndtri(0.975) if math.isinf(df) else special.stdtrit(df, 0.975)
    z = [2 * upper * nearest / widths[1], 2 * upper * abs(estimate).max() / widths[0]]
    ends = [float(2 * (special.ndtr(-x) if math.isinf(df) else special.stdtr(df, -x))) for x in z]
    if printed_number(str(line.p_effect)).holds(ends[1], ends[0]):
        return
    yield Finding(
        P_NOT_OF_INTERVAL,
        Severity.DOUBT,
        line.source("p_effect"),
        f"P is printed as {line.p_effect}, and {line.estimate} ({line.low} to {line.high}) goes "
        f"with {_range(ends[1], ends[0])}",
        "One of them is misprinted, or they come from two methods: trust neither without the rows.",
    )


def _p_of_q(line: PrintedLine) -> Iterator[Finding]:
    if line.q is None or line.p_heterogeneity is None or not line.df:
        return
    low, high = _ends(printed_number(line.q))
    ends = [float(special.chdtrc(line.df, max(value, 0.0))) for value in (high, low)]
    if not printed_number(line.p_heterogeneity).holds(*ends):
        yield Finding(
            P_NOT_OF_Q,
            Severity.DOUBT,
            line.source("p_heterogeneity"),
            f"P of heterogeneity is printed as {line.p_heterogeneity}, and Q {line.q} on "
            f"{line.df} degrees of freedom has {_range(*ends)}",
            "Q, its degrees of freedom or its P is misprinted.",
        )


def _i2_of_q(line: PrintedLine) -> Iterator[Finding]:
    if line.q is None or line.i2 is None or not line.df:
        return
    low, high = _ends(printed_number(line.q))
    ends = [100 * max(0.0, 1 - line.df / value) if value > 0 else 0.0 for value in (low, high)]
    if not printed_number(line.i2).holds(*ends):
        yield Finding(
            I2_NOT_OF_Q,
            Severity.DOUBT,
            line.source("i2"),
            f"I2 is printed as {line.i2}, and Q {line.q} on {line.df} degrees of freedom has "
            f"{ends[0]:.1f} to {ends[1]:.1f}",
            "One of them is misprinted, or I2 was taken from tau2 and not from Q.",
        )


def _unlogged(pooling: PublishedPooling, rows: Rows, found: Sequence[Variant]) -> Iterator[Finding]:
    """Doubt a test of asymmetry that fits the ratios and not their logarithms.

    On ratios the standard error grows with the ratio, so that a test finds asymmetry where there is
    none.
    """
    test = pooling.printed.asymmetry
    if test is None or test.t is None or not pooling.measure.is_ratio or not found:
        return
    effects = effects_of(rows, found[0])
    value, se = effects.estimate[rows.informs], np.sqrt(effects.variance[rows.informs])
    half = float(special.ndtri(0.975)) * se
    width = np.exp(value + half) - np.exp(value - half)
    logged, ratios = egger(value, se**2), egger(np.exp(value), (width / 3.92) ** 2)
    printed = abs(printed_number(test.t).value)
    off = abs(abs(ratios.t) - printed)
    if off < _NEAR * printed and off < abs(abs(logged.t) - printed) / 2:
        yield Finding(
            EGGER_UNLOGGED,
            Severity.DOUBT,
            test.source("t"),
            f"Egger's t is printed as {test.t}; on the logarithms of these ratios it is "
            f"{abs(logged.t):.2f}, on the ratios themselves {abs(ratios.t):.2f}",
            "It was probably run on ratios without logarithms, where skew is built in: read it as "
            f"t {abs(logged.t):.2f} on {logged.df} degrees of freedom (P {_p(logged.p)}).",
        )


def _ends(number: PrintedNumber) -> "np.ndarray[tuple[int], np.dtype[np.float64]]":
    return np.array([number.value - number.half, number.value + number.half])


def _range(low: float, high: float) -> str:
    written = (_p(low), _p(high))
    return f"P {written[0]}" if written[0] == written[1] else f"P {written[0]} to {written[1]}"


def _p(value: float) -> str:
    return f"{value:.2g}" if value >= 0.0001 else "<0.0001"
