"""What keeps a typed pooling from being redone: every fault, with its line."""

from collections.abc import Iterator

from evsyn.reproduction.printed_number import printed_number
from evsyn.reproduction.record import Arm, Measure, PublishedPooling, Row
from evsyn.reproduction.rows import Kind, kind_of
from evsyn.terms import Finding, Severity, Source

ROWS_WHOLE = "rows-whole"
EVENTS_WITHIN_TOTAL = "events-within-total"
SPREAD_ABOVE_ZERO = "spread-above-zero"
GROUP_KNOWN = "group-known"

_RATIOS = (Measure.RISK_RATIO, Measure.ODDS_RATIO)
#: What rows of each kind can be pooled as.
_MEASURES: dict[Kind, tuple[Measure, ...]] = {
    Kind.COUNTS: (*_RATIOS, Measure.RISK_DIFFERENCE),
    Kind.MEANS: (Measure.MEAN_DIFFERENCE, Measure.STANDARDISED_MEAN_DIFFERENCE),
    Kind.PROPORTION: (Measure.PROPORTION,),
    Kind.LIMITS: tuple(Measure),
    Kind.ERROR: tuple(Measure),
}


def faults_of(pooling: PublishedPooling) -> Iterator[Finding]:
    """Yield every fault of the rows, and of the names the printed groups use."""
    first = kind_of(pooling.rows[0])
    for row in pooling.rows:
        kind = kind_of(row)
        if kind is None:
            yield _fault(
                ROWS_WHOLE,
                row.source(),
                f"'{row.study}' does not hold one whole set of numbers",
                "Give both arms as {events, total}, or both as {mean, sd, total}, or events and "
                "total, or estimate with low and high, or estimate with se; what is printed beside "
                "counts goes under 'printed'.",
            )
        elif first is not None and kind is not first:
            yield _fault(
                ROWS_WHOLE,
                row.source(),
                f"'{row.study}' gives {kind}, and the first row gives {first}",
                "Type all rows in one form.",
            )
        elif pooling.measure not in _MEASURES[kind]:
            known = ", ".join(_MEASURES[kind])
            yield _fault(
                ROWS_WHOLE,
                pooling.source("measure"),
                f"rows of {kind} cannot be pooled as '{pooling.measure}'",
                f"Such rows give: {known}. Of others type the estimate with its limits.",
            )
            return
        else:
            yield from _numbers(pooling, row, kind)
    if not _named(pooling):
        yield _fault(
            ROWS_WHOLE,
            pooling.source("printed"),
            "nothing is printed that could be looked for",
            "Type at least the pooled value with its limits.",
        )
    yield from _groups(pooling)


def _numbers(pooling: PublishedPooling, row: Row, kind: Kind) -> Iterator[Finding]:
    counts: list[tuple[Row | Arm, int | None, int | None]] = [(row, row.events, row.total)]
    arms = [arm for arm in (row.first, row.second) if arm is not None]
    counts += [(arm, arm.events, arm.total) for arm in arms]
    for record, events, total in counts:
        if events is not None and total is not None and events > total:
            message = f"'{row.study}' has {events} events among {total}"
            cure = "Look at the row again; events and total may be swapped."
            yield _fault(EVENTS_WITHIN_TOTAL, record.source("events"), message, cure)
    if kind is Kind.MEANS:
        for arm in arms:
            if printed_number(str(arm.sd)).value <= 0 or arm.total < 2:
                message = f"'{row.study}' needs a standard deviation above 0 and 2 patients an arm"
                cure = "A study without them cannot be weighted: leave it out, and say so."
                yield _fault(SPREAD_ABOVE_ZERO, arm.source("sd"), message, cure)
    if kind is Kind.ERROR and printed_number(str(row.se)).value <= 0:
        message = f"'{row.study}' has a standard error that is not above 0"
        cure = "Look at the row again, or type its limits."
        yield _fault(SPREAD_ABOVE_ZERO, row.source("se"), message, cure)
    if kind is Kind.LIMITS:
        yield from _limits(pooling, row)


def _limits(pooling: PublishedPooling, row: Row) -> Iterator[Finding]:
    estimate, low, high = (
        printed_number(str(text)).value for text in (row.estimate, row.low, row.high)
    )
    if low >= high:
        message = f"'{row.study}' has the lower limit {row.low} and the upper limit {row.high}"
        yield _fault(SPREAD_ABOVE_ZERO, row.source("low"), message, "Look at the row again.")
    elif pooling.measure.is_ratio and min(estimate, low) <= 0:
        message = f"'{row.study}' has a ratio that is not above 0"
        cure = (
            "A ratio is never 0 or below. If the column holds logarithms, measure is 'other'; a "
            "limit printed as 0.00 cannot be used: find its decimals."
        )
        yield _fault(SPREAD_ABOVE_ZERO, row.source("low"), message, cure)


def _named(pooling: PublishedPooling) -> bool:
    line, groups = pooling.printed.overall, pooling.printed.groups
    asked = [line] if line is not None else []
    return any(
        getattr(one, name) is not None
        for one in (*asked, *groups, pooling.printed.asymmetry)
        if one is not None
        for name in type(one).model_fields
        if name not in ("group", "test")
    )


def _groups(pooling: PublishedPooling) -> Iterator[Finding]:
    known = list(dict.fromkeys(row.group for row in pooling.rows if row.group))
    for group in pooling.printed.groups:
        if group.group not in known:
            yield _fault(
                GROUP_KNOWN,
                group.source("group"),
                f"no row stands in the group '{group.group}'",
                f"Groups of the rows: {', '.join(known) or 'none'}.",
            )


def _fault(rule: str, source: Source, message: str, cure: str) -> Finding:
    return Finding(rule, Severity.FAULT, source, message, cure)
