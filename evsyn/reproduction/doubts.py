"""What often goes wrong in print, and is seen in the typed numbers without any pooling."""

from collections.abc import Iterator
from itertools import groupby

import numpy as np

from evsyn.extraction.percentages import Fit, counts_that_fit, fit_of
from evsyn.reproduction.printed_number import printed_number
from evsyn.reproduction.record import (
    Arm,
    PrintedEffect,
    PrintedLine,
    PublishedPooling,
    Row,
)
from evsyn.reproduction.rows import Kind, kind_of, rows_of
from evsyn.terms import Finding, Severity, Source

ROW_TWICE = "row-twice"
PERCENT_IMPOSSIBLE = "percent-impossible"
INTERVAL_ASTRAY = "interval-astray"
LIMITS_UNEVEN = "limits-uneven"
DF_NOT_OF_K = "df-not-of-k"
WEIGHTS_NOT_WHOLE = "weights-not-whole"
LOGS_LIKE_RATES = "logs-like-rates"

#: Rows from which on it is no chance that all look like proportions (common practice, no source).
_ENOUGH = 5


def doubts_of(pooling: PublishedPooling) -> Iterator[Finding]:
    """Yield every doubt about a pooling without faults."""
    yield from _twice(pooling)
    yield from _percentages(pooling)
    yield from _intervals(pooling)
    yield from _uneven(pooling)
    yield from _degrees(pooling)
    yield from _weights(pooling)
    yield from _like_rates(pooling)


def _twice(pooling: PublishedPooling) -> Iterator[Finding]:
    """Doubt each row whose label, or whose every number, stands in an earlier one."""
    labels: dict[str, Row] = {}
    numbers: dict[tuple[object, ...], Row] = {}
    for row in pooling.rows:
        label = " ".join(row.study.lower().split())
        typed = _typed(row)
        first = labels.get(label) or numbers.get(typed)
        labels.setdefault(label, row)
        # Small single counts are often alike by chance.
        if kind_of(row) is not Kind.PROPORTION:
            numbers.setdefault(typed, row)
        if first is None:
            continue
        line = first.source().line
        groups = f" (groups '{first.group}' and '{row.group}')" if row.group != first.group else ""
        same = "the same numbers as" if typed == _typed(first) else "the label, not the numbers, of"
        yield _doubt(
            ROW_TWICE,
            row.source("study"),
            f"'{row.study}' has {same} '{first.study}' of line {line}{groups}",
            "Patients in two rows are counted twice in the total, which is then too precise. Pool "
            "the groups apart, or each trial once; if the rows are other patients, say so.",
        )


def _typed(row: Row) -> tuple[object, ...]:
    arms = [(a.events, a.mean, a.sd, a.total) if a else None for a in (row.first, row.second)]
    return (*arms, row.events, row.total, row.estimate, row.low, row.high, row.se)


def _percentages(pooling: PublishedPooling) -> Iterator[Finding]:
    for row in pooling.rows:
        for record in (row, row.first, row.second):
            if record is not None and record.events is not None and record.percent is not None:
                yield from _percentage(row.study, record)


def _percentage(study: str, record: Row | Arm) -> Iterator[Finding]:
    events, total, printed = record.events, record.total, str(record.percent)
    if events is None or total is None or fit_of(events, total, printed) is not Fit.IMPOSSIBLE:
        return
    fitting = counts_that_fit(total, printed)
    could = (
        f"no count of {total} gives that"
        if not fitting
        else f"of {total} that is {' or '.join(map(str, fitting[:3]))}"
    )
    yield _doubt(
        PERCENT_IMPOSSIBLE,
        record.source("percent"),
        f"'{study}' prints {printed} beside {events} of {total}; {could}",
        "The percentage has another denominator, or a digit is wrong: look at the study's paper.",
    )


def _intervals(pooling: PublishedPooling) -> Iterator[Finding]:
    printed = pooling.printed
    lines: list[Row | PrintedEffect | PrintedLine] = list(pooling.rows)
    lines += [row.printed for row in pooling.rows if row.printed is not None]
    lines += [line for line in (printed.overall, *printed.groups) if line is not None]
    for line in lines:
        if line.estimate is None or line.low is None or line.high is None:
            continue
        estimate, low, high = map(printed_number, (line.estimate, line.low, line.high))
        if estimate.high < low.low or estimate.low > high.high:
            yield _doubt(
                INTERVAL_ASTRAY,
                line.source("estimate"),
                f"{line.estimate} lies outside its own interval, {line.low} to {line.high}",
                "A digit or a sign is wrong in one of the three.",
            )


def _uneven(pooling: PublishedPooling) -> Iterator[Finding]:
    """Doubt limits that cannot lie evenly about their estimate, on the scale of the measure."""
    for row in pooling.rows:
        if kind_of(row) is not Kind.LIMITS:
            continue
        numbers = [printed_number(str(text)) for text in (row.estimate, row.low, row.high)]
        ends = np.array([[one.value - one.half, one.value + one.half] for one in numbers])
        if pooling.measure.is_ratio:
            ends = np.log(np.maximum(ends, 1e-12))
        estimate, low, high = ends
        if 2 * estimate[0] > low[1] + high[1] or 2 * estimate[1] < low[0] + high[0]:
            scale = " as logarithms" if pooling.measure.is_ratio else ""
            yield _doubt(
                LIMITS_UNEVEN,
                row.source("low"),
                f"'{row.study}': {row.low} and {row.high} do not lie evenly about "
                f"{row.estimate}{scale}",
                "The limits are of another kind, or a digit is wrong; their width, which gives the "
                "weight, may be wrong too.",
            )


def _degrees(pooling: PublishedPooling) -> Iterator[Finding]:
    rows, printed = rows_of(pooling), pooling.printed
    lines = {} if printed.overall is None else {"": printed.overall}
    for name, line in {**lines, **{group.group: group for group in printed.groups}}.items():
        k = rows.number_of(name)
        if line.df is not None and line.df != k - 1:
            yield _df(line.source("df"), line.df, f"{k} rows are typed that inform the pool")
    between = printed.between_groups
    if between is not None and between.df is not None and between.df != len(rows.levels) - 1:
        yield _df(between.source("df"), between.df, f"there are {len(rows.levels)} groups")


def _df(source: Source, df: int, there_are: str) -> Finding:
    return _doubt(
        DF_NOT_OF_K,
        source,
        f"{df} degrees of freedom go with {df + 1}, and {there_are}",
        "A row is missing, or too many, or the line belongs to another plot.",
    )


def _weights(pooling: PublishedPooling) -> Iterator[Finding]:
    """Doubt printed weights that cannot sum to 100, of the total or within every group."""
    rows = [row for row in pooling.rows if row.weight is not None]
    if len(rows) < len(pooling.rows):
        return
    by_group = groupby(sorted(rows, key=lambda row: row.group or ""), lambda row: row.group)
    sets = [list(group) for _, group in by_group]
    if _whole(rows) or all(map(_whole, sets)):
        return
    total = sum(printed_number(str(row.weight)).value for row in rows)
    yield _doubt(
        WEIGHTS_NOT_WHOLE,
        rows[-1].source("weight"),
        f"the printed weights sum to {total:.6g}, not to 100",
        "A row is missing, or a weight is misprinted.",
    )


def _whole(rows: list[Row]) -> bool:
    weights = [printed_number(str(row.weight)) for row in rows]
    slack = sum(weight.half for weight in weights) + 1e-9
    return abs(sum(weight.value for weight in weights) - 100) <= slack


def _like_rates(pooling: PublishedPooling) -> Iterator[Finding]:
    """Doubt logarithms of ratios that are all small, above 0 and precise, as proportions are.

    Trials with precise results differ in direction or size; a column in which all logarithms lie
    between 0 and 0.2 with standard errors below 0.02 is more likely one of proportions.
    """
    if not pooling.measure.is_ratio or kind_of(pooling.rows[0]) is not Kind.ERROR:
        return
    logarithm, se = rows_of(pooling).columns
    if logarithm.size < _ENOUGH or not np.all((logarithm > 0) & (logarithm < 0.2) & (se < 0.02)):
        return
    yield _doubt(
        LOGS_LIKE_RATES,
        pooling.rows[0].source("estimate"),
        f"all {logarithm.size} logarithms lie between 0 and 0.2 with standard errors below 0.02, "
        "as proportions do",
        "See whether the column holds proportions under the heading of a ratio: what is printed as "
        "a pooled ratio would then be none.",
    )


def _doubt(rule: str, source: Source, message: str, cure: str) -> Finding:
    return Finding(rule, Severity.DOUBT, source, message, cure)
