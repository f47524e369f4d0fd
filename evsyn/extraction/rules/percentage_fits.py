"""The percentage printed beside a count must be one the count can give."""

from collections.abc import Iterator

from evsyn.extraction.percentages import Fit, counts_that_fit, fit_of
from evsyn.extraction.review import Review
from evsyn.extraction.rules.rule import ReviewRule, every_count
from evsyn.terms import Finding, Severity

NAME = "percentage-fits"


def check(review: Review) -> Iterator[Finding]:
    """Yield a doubt for a percentage no such count gives, a note for a truncated one."""
    for placed in every_count(review):
        count = placed.count
        if count.printed is None:
            continue
        fit = fit_of(count.events, count.total, count.printed)
        exact = f"{count.events} of {count.total} is {100 * count.events / count.total:.2f}%"
        if fit is Fit.IMPOSSIBLE:
            offer = _offer(count.total, counts_that_fit(count.total, count.printed))
            yield Finding(
                NAME,
                Severity.DOUBT,
                placed.source,
                f"the paper prints {count.printed}, but {exact}",
                f"{offer}; look for another denominator in the paper.",
            )
        elif fit is Fit.TRUNCATED:
            yield Finding(
                "percentage-truncated",
                Severity.NOTE,
                placed.source,
                f"the paper prints {count.printed} without rounding; {exact}",
                "Nothing to do.",
            )
        elif fit is Fit.UNREAD:
            yield Finding(
                "percentage-unread",
                Severity.NOTE,
                placed.source,
                f"no percentage can be read from '{count.printed}'",
                'Write it as the paper does, as printed: "7.7%".',
            )


def _offer(total: int, fitting: range) -> str:
    if not fitting:
        return f"No count of {total} gives it"
    if len(fitting) > 3:
        return f"Of {total}, any from {fitting[0]} to {fitting[-1]} would give it"
    return f"Of {total}, {' or '.join(map(str, fitting))} would give it"


RULE = ReviewRule(
    NAME,
    Severity.DOUBT,
    "A whole number over a whole number gives only certain percentages; another one means a "
    "wrong count, a wrong denominator or a misprint. A percentage cut off instead of rounded is "
    "only noted.",
    check,
)
