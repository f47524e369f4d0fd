"""How far an interval can be trusted in reviews of a layout, in sentences."""

import math
from enum import StrEnum

import numpy as np

from evsyn.calibration.layout import Layout
from evsyn.calibration.result import Calibration, Estimated, Line, LineCalibration
from evsyn.terms import Better
from evsyn.wording.numbers import counted, percent, span, spread

LINE_NAMES = {
    Line.HEADLINE: "Headline",
    Line.RESTRICTED_ML: "Restricted ML, Hartung-Knapp",
    Line.EXACT: "Exact model",
    Line.READING: "Read this",
}

HEADINGS = ("Row", "Held", "Above", "Below", "Width", "Bias", "Log-odds", "No answer")
LEGEND = (
    "Held, Above, Below: per cent of the intervals that held the true rate, lay wholly above it, "
    "wholly below. Width and Bias: means, in percentage points; Log-odds: the bias on that scale. "
    "No answer: per cent of the reviews. Under each number its simulation error (standard error); "
    "0.0 under 0.0 or 100.0 says nothing."
)
ERROR = "  error"

#: An interval is taken at its word where it misses between half and one and a half times as often
#: as it says. Source: the liberal criterion of Bradley JV. Br J Math Stat Psychol
#: 1978;31:144-152, from memory.
LEAST_MISSED, MOST_MISSED = 0.5, 1.5
#: Below this bias, in proportions, nothing is said of it.
SMALL_BIAS = 0.0005
#: A share of reviews without an answer that is worth a sentence.
OFTEN_WITHOUT = 0.02


class Trust(StrEnum):
    """How an interval does against what it says of itself."""

    FAIR = "fair"
    TOO_SURE = "too_sure"
    TOO_WIDE = "too_wide"
    UNKNOWN = "unknown"


def trust(line: LineCalibration, level: float) -> Trust:
    """Judge an interval; twice the simulation error is allowed for.

    Where none or all missed that error is 0 and says nothing: 3 over the number of reviews then
    stands in for it. Hanley JA, Lippman-Hand A. JAMA 1983;249:1743-1745, from memory.
    """
    missed, leeway = 1 - line.coverage.value, 2 * line.coverage.error
    if missed in (0.0, 1.0):
        leeway = 3 / (line.reviews * (1 - line.no_answer.value))
    if math.isnan(missed):
        return Trust.UNKNOWN
    if missed - leeway > MOST_MISSED * (1 - level):
        return Trust.TOO_SURE
    return Trust.TOO_WIDE if missed + leeway < LEAST_MISSED * (1 - level) else Trust.FAIR


def sizes_words(sizes: tuple[int, ...]) -> str:
    """Describe the sizes of studies, as ``18 studies of 12 to 250 patients (median 40)``."""
    least, most = min(sizes), max(sizes)
    studies = counted(len(sizes), "study", "studies")
    if least == most:
        return f"{studies} of {least:,} patients"
    return f"{studies} of {least:,} to {most:,} patients (median {float(np.median(sizes)):,.0f})"


def layout_sentences(layout: Layout, taken_from: str) -> str:
    """Say what is simulated, and where its truth was taken from."""
    if layout.tau == 0:
        settings = "so that all settings share it"
    else:
        settings = f"so that 95 in 100 settings lie between {between(*layout.range_of_settings)}"
    return (
        f"{sizes_words(layout.sizes)}. Taken as true: {percent(layout.rate)} in the median "
        f"setting, and tau {spread(layout.tau)} between settings, {settings}. {taken_from}"
    )


def between(low: float, high: float) -> str:
    """Write two limits after the word between."""
    return span(low, high).replace(" to ", " and ")


def taken_from_row(row: str, *, rate: bool, tau: bool) -> str:
    """Say which of rate and tau are those of the row to read."""
    if rate and tau:
        return f"Both are those of the row to read ({row})."
    if rate or tau:
        which, other = ("The rate", "tau") if rate else ("Tau", "the rate")
        return f"{which} is that of the row to read ({row}), {other} as typed."
    return TYPED


TYPED = "Both as typed."

LITTLE_SPREAD = (
    "Next to no spread was seen between these studies, and few studies cannot exclude it. Try a "
    "larger one as well: --tau 0.3."
)
OWN_TRUTH = (
    "The truth was set by the review itself. So this says how the method does if the review is "
    "about right; it cannot say whether the studies are."
)


def simulated_sentence(found: Calibration) -> str:
    """Say how many reviews were simulated."""
    return (
        f"{found.replications:,} such reviews were drawn for the headline and restricted ML, and "
        f"{found.exact_replications:,} for the exact model and for the row the tool would choose, "
        f"which take longer. Seed {found.seed}."
    )


def held_sentence(line: LineCalibration, level: float, *, lead: str) -> str:
    """Say of 100 reviews how many intervals held the true rate, and which way the others missed.

    Parameters
    ----------
    line : LineCalibration
        The line.
    level : float
        Level of the intervals.
    lead : str
        Name of the line in a sentence.
    """
    if math.isnan(line.coverage.value):
        return f"None of the reviews gave {lead} an answer."
    # Reviews without an interval are no part of the share.
    with_one = " in which it can be had," if line.no_answer.value >= 0.005 else ","
    return (
        f"Of 100 reviews laid out like this{with_one} the {100 * level:g}% interval of {lead} held "
        f"the true rate in {in_100(line.coverage)}; {_misses(line)}."
    )


def _misses(line: LineCalibration) -> str:
    above, below = line.above.value, line.below.value
    if above + below == 0:
        return "none missed it"
    if max(above, below) < 3 * min(above, below):
        return "the others lay above it and below it"
    side = "above" if above > below else "below"
    few = "all" if min(above, below) == 0 else "nearly all" if _one_sided(above, below) else "most"
    return f"{few} of the others lay {side} it"


def _one_sided(above: float, below: float) -> bool:
    return min(above, below) < 0.1 * max(above, below)


def in_100(share: Estimated) -> str:
    """Write a share as so many of 100; not 0 or 100 where it is neither.

    Examples
    --------
    >>> in_100(Estimated(0.8321, 0.004)), in_100(Estimated(0.998, 0.001))
    ('83', 'more than 99')
    """
    times = 100 * share.value
    if 0 < times < 0.5:
        return "fewer than 1"
    return "more than 99" if 99.5 <= times < 100 else f"{times:.0f}"


def bias_sentence(line: LineCalibration, rate: float, *, lead: str) -> str:
    """Say how far the value stands from the truth on average; empty where it hardly does."""
    bias = line.bias
    if math.isnan(bias.value) or abs(bias.value) < max(SMALL_BIAS, 2 * bias.error):
        return ""
    side = "high" if bias.value > 0 else "low"
    return (
        f"On average {lead} stands {100 * abs(bias.value):.1f} points too {side}: "
        f"{percent(rate)} would be printed as {percent(rate + bias.value)}."
    )


def advice(found: Calibration) -> str:
    """Say what to do with the intervals of a review like this."""
    reading, headline = found.line(Line.READING), found.line(Line.HEADLINE)
    read, printed = trust(reading, found.level), trust(headline, found.level)
    told = [_ADVICE[read, printed is Trust.TOO_SURE]]
    without = reading.no_answer
    if without.value > OFTEN_WITHOUT:
        told.append(
            f"In {in_100(without)} of 100 such reviews no row could be read. Give the counts "
            "then, with their exact limits."
        )
    return " ".join(told)


_NOT_THE_HEADLINE = (
    "The headline may stand beside it, since papers print it, but its interval is too sure of "
    "itself here."
)
_QUOTE = "What to do: quote the row to read, with its interval."
_ADVICE = {
    (Trust.FAIR, True): f"{_QUOTE} {_NOT_THE_HEADLINE}",
    (Trust.FAIR, False): f"{_QUOTE} The headline's interval can be taken at its word here as well.",
    (Trust.TOO_WIDE, True): f"{_QUOTE} It is wider than it need be. {_NOT_THE_HEADLINE}",
    (
        Trust.TOO_WIDE,
        False,
    ): f"{_QUOTE} It is wider than it need be, which errs on the careful side.",
    **{
        (Trust.TOO_SURE, other): (
            "What to do: take no interval at its word here. Even the row to read misses more often "
            "than it says. Say so beside it, and rest the argument on the counts and on the range "
            "of the studies."
        )
        for other in (True, False)
    },
    **{
        (Trust.UNKNOWN, other): "What to do: give the counts, for no row can be read."
        for other in (True, False)
    },
}


def units_sentences(found: Calibration) -> str:
    """Say how often new units would be flagged."""
    units, layout = found.units, found.layout
    cases = counted(units.cases, "case", "cases")
    if units.no_verdict.value == 1:
        return "No unit would be given a verdict against such a review: it has too few studies."
    told = (
        f"Of 1,000 ordinary new units with {cases}, {_in_1000(units.more)} would be called more "
        f"than the range and {_in_1000(units.fewer)} fewer; at most 25 each is what the verdict "
        f"aims at. Of 100 units {_doubled_words(layout)}, {in_100(units.doubled)} would be flagged."
    )
    if units.no_verdict.value > OFTEN_WITHOUT:
        told += f" In {in_100(units.no_verdict)} of 100 reviews there would be no verdict."
    return told


def _doubled_words(layout: Layout) -> str:
    if layout.direction is Better.FEWER:
        return f"at twice the rate ({percent(layout.doubled)})"
    return f"at twice the typical share without it ({percent(layout.doubled)} with it)"


def _in_1000(share: Estimated) -> str:
    times = 1000 * share.value
    return "fewer than 1" if 0 < times < 0.5 else f"{times:.0f}"
