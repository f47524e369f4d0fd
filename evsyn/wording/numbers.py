"""How numbers are written, everywhere: one place, so that every outlet prints the same digits."""

import math

SMALLEST = 0.0005
LARGEST = 0.9995


def percent(proportion: float) -> str:
    """Write a proportion as a percentage with one decimal.

    Examples
    --------
    >>> percent(0.0739), percent(0.0001), percent(0.99999)
    ('7.4%', 'under 0.1%', 'over 99.9%')
    """
    if 0 < proportion < SMALLEST:
        return "under 0.1%"
    if LARGEST < proportion < 1:
        return "over 99.9%"
    return f"{100 * proportion:.1f}%"


def span(low: float, high: float) -> str:
    """Write two limits as percentages.

    Examples
    --------
    >>> span(0.0502, 0.0941)
    '5.0% to 9.4%'
    """
    return f"{percent(low)} to {percent(high)}"


def cell(value: float, low: float, high: float) -> str:
    """Write a proportion with its limits for a table column headed in per cent.

    Examples
    --------
    >>> cell(0.0739, 0.0502, 0.0941), cell(0.0132, 0.0003, 0.0711)
    ('7.4 (5.0-9.4)', '1.3 (<0.1-7.1)')
    """
    return f"{_bare(value)} ({limits(low, high)})"


def limits(low: float, high: float) -> str:
    """Write two limits for a table column headed in per cent.

    Examples
    --------
    >>> limits(0.0502, 0.0941)
    '5.0-9.4'
    """
    return f"{_bare(low)}-{_bare(high)}"


def _bare(proportion: float) -> str:
    written = percent(proportion).removesuffix("%")
    return written.replace("under ", "<").replace("over ", ">")


def count(events: int, total: int) -> str:
    """Write a count.

    Examples
    --------
    >>> count(4, 1052)
    '4 of 1,052'
    """
    return f"{events:,} of {total:,}"


def counted(number: int, one: str, several: str) -> str:
    """Write a number with its noun.

    Examples
    --------
    >>> counted(1, "study", "studies"), counted(3, "study", "studies")
    ('1 study', '3 studies')
    """
    return f"{number:,} {one if number == 1 else several}"


def frequency(tail: float) -> str:
    """Write a chance as one in so many.

    Examples
    --------
    >>> frequency(0.0791), frequency(0.4), frequency(0.00001)
    ('1 in 13', '4 in 10', 'fewer than 1 in 1,000')
    """
    if tail < 0.001:
        return "fewer than 1 in 1,000"
    if tail >= 0.15:
        return f"{round(10 * tail)} in 10" if tail < 0.95 else "nearly all"
    return f"1 in {round(1 / tail):,}"


def spread(tau: float) -> str:
    """Write a between-study standard deviation.

    Examples
    --------
    >>> spread(0.6123), spread(float("nan"))
    ('0.61', 'not estimated')
    """
    return "not estimated" if math.isnan(tau) else f"{tau:.2f}"


def probability(p: float) -> str:
    """Write a P value.

    Examples
    --------
    >>> probability(0.0312), probability(0.00001)
    ('0.03', 'below 0.001')
    """
    if p < 0.001:
        return "below 0.001"
    return f"{p:.3f}" if p < 0.01 else f"{p:.2f}"
