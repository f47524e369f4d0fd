"""A follow-up in numbers that fits the period and the day of freezing."""

from calendar import monthrange
from collections.abc import Iterator
from datetime import date

from evsyn.extraction.plan import Plan
from evsyn.extraction.rules.rule import UnitRule
from evsyn.extraction.unit import Unit
from evsyn.terms import Finding, Severity

NAME = "unit-followed"
#: Of the Gregorian calendar: 365.2425 days a year.
_DAYS_A_MONTH = 365.2425 / 12
#: Months by which a median may be rounded.
_ROUNDED = 0.5


def check(unit: Unit, _: Plan) -> Iterator[Finding]:
    """Yield a doubt for each length of follow-up that can hardly have been."""
    if unit.followed is None:
        return
    least, median = unit.followed.least_days, unit.followed.median_months
    frozen = date.fromisoformat(unit.frozen_on)
    if least is not None and median is not None and (median + _ROUNDED) * _DAYS_A_MONTH < least:
        message = f"median follow-up of {_months(median)}, and every case for {least} days"
        cure = "A median below the least is one where more than half died before: check both."
        yield Finding(NAME, Severity.DOUBT, unit.followed.source("median_months"), message, cure)
    first = _bound(unit.period.from_, last=False)
    if median is not None and (median - _ROUNDED) * _DAYS_A_MONTH > (frozen - first).days:
        longest = (frozen - first).days / _DAYS_A_MONTH
        message = f"median follow-up of {_months(median)}, and from the first month "
        message += f"({unit.period.from_}) to the day of freezing ({unit.frozen_on}) it is "
        message += f"{longest:.1f} months"
        cure = "Correct the median, the period or the day of freezing."
        yield Finding(NAME, Severity.DOUBT, unit.followed.source("median_months"), message, cure)
    left = (frozen - _bound(unit.period.to, last=True)).days
    # Figures frozen within their period are a fault of another check.
    if least is not None and least > left >= 0:
        message = f"every case followed for {least} days, and the figures were frozen "
        message += f"{left} day{'' if left == 1 else 's'} after the period ended "
        message += f"({unit.period.to})"
        cure = (
            f"Late cases cannot have been followed for {least} days unless they died: freeze the "
            "figures later, end the period earlier, or give the days that all were followed."
        )
        yield Finding(NAME, Severity.DOUBT, unit.followed.source("least_days"), message, cure)


def _bound(written: str, *, last: bool) -> date:
    """Return the first or the last day of a year or a month, or the day that is written."""
    year, *rest = map(int, written.split("-"))
    month = rest[0] if rest else (12 if last else 1)
    if len(rest) > 1:
        return date(year, month, rest[1])
    return date(year, month, monthrange(year, month)[1] if last else 1)


def _months(number: float) -> str:
    return f"{number:g} month{'' if number == 1 else 's'}"


RULE = UnitRule(
    NAME,
    Severity.DOUBT,
    "Nobody can be followed for longer than from the first month to the day of freezing, nor the "
    "last cases for longer than from the end of the period; and a median is at least the least.",
    check,
)
