"""A calibration as text: what it means in sentences, then the numbers."""

import math
from collections.abc import Iterator, Sequence

from evsyn.calibration.result import Calibration, Estimated, Line, LineCalibration
from evsyn.reporting.plain_table import plain_table
from evsyn.reporting.pool_text import paragraph
from evsyn.wording.calibration import (
    ERROR,
    HEADINGS,
    LEGEND,
    LINE_NAMES,
    advice,
    bias_sentence,
    held_sentence,
    layout_sentences,
    simulated_sentence,
    units_sentences,
)
from evsyn.wording.calibration_levels import (
    TEST_HEADINGS,
    TEST_LEGEND,
    TEST_NAMES,
    difference_sentences,
    levels_sentence,
    ratio,
)


def calibration_text(
    found: Calibration, *, head: Sequence[str], taken_from: str, notes: Sequence[str] = ()
) -> str:
    """Return a calibration as text in 80 columns.

    Parameters
    ----------
    found : Calibration
        What was found.
    head : sequence of str
        Lines above it: of which review and outcome.
    taken_from : str
        Where the truth was taken from.
    notes : sequence of str
        Sentences below it.
    """
    return "\n".join(_parts(found, head, taken_from, notes))


def _parts(
    found: Calibration, head: Sequence[str], taken_from: str, notes: Sequence[str]
) -> Iterator[str]:
    layout = found.layout
    yield from map(paragraph, head)
    yield paragraph(layout_sentences(layout, taken_from))
    yield paragraph(simulated_sentence(found))
    yield ""
    for line, lead in ((Line.HEADLINE, "the headline"), (Line.READING, "the row to read")):
        one = found.line(line)
        told = (
            held_sentence(one, found.level, lead=lead),
            bias_sentence(one, layout.rate, lead=lead),
        )
        yield paragraph(" ".join(filter(None, told)))
    yield ""
    yield paragraph(advice(found))
    yield ""
    rows = [row for line in found.lines for row in _rows(line)]
    yield plain_table(HEADINGS, rows, right=range(1, len(HEADINGS)))
    yield paragraph(LEGEND)
    if found.strata:
        yield ""
        yield paragraph(levels_sentence(found))
        yield paragraph(difference_sentences(found))
        yield ""
        yield plain_table(TEST_HEADINGS, list(_test_rows(found)), right=(2, 3, 4))
        yield paragraph(TEST_LEGEND)
    yield ""
    yield paragraph(units_sentences(found))
    if notes:
        yield ""
        yield from map(paragraph, notes)


def _rows(line: LineCalibration) -> Iterator[tuple[str, ...]]:
    shares = (line.coverage, line.above, line.below)
    points = ((line.width, ".1f"), (line.bias, "+.2f"))
    yield (
        LINE_NAMES[line.line],
        *(_number(100 * one.value, ".1f") for one in shares),
        *(_number(100 * one.value, form) for one, form in points),
        _number(line.bias_log_odds.value, "+.3f"),
        _number(100 * line.no_answer.value, ".1f"),
    )
    yield (
        ERROR,
        *(_number(100 * one.error, ".1f") for one in shares),
        *(_number(100 * one.error, ".2f") for one, _ in points),
        _number(line.bias_log_odds.error, ".3f"),
        _number(100 * line.no_answer.error, ".1f"),
    )


def _test_rows(found: Calibration) -> Iterator[tuple[str, ...]]:
    for line in found.strata:
        for place, gap in enumerate(line.gaps):
            first = place == 0
            tests = (line.rejected, line.no_answer) if first else ()
            blank = () if first else ("", "")
            yield (
                TEST_NAMES[line.line] if first else "",
                f"{gap.first} v {gap.second}",
                ratio(gap),
                *(_number(100 * one.value, ".1f") for one in tests),
                *blank,
            )
            yield (
                ERROR,
                "",
                _number(_ratio_error(gap.log_odds_ratio), ".3f"),
                *(_number(100 * one.error, ".1f") for one in tests),
                *blank,
            )


def _ratio_error(log_ratio: Estimated) -> float:
    """Return the error of a ratio from that of its logarithm."""
    return math.exp(log_ratio.value) * log_ratio.error


def _number(value: float, form: str) -> str:
    return "-" if math.isnan(value) else format(value, form)
