"""The arithmetic behind a derived count must come out."""

import re
from collections.abc import Iterator

from evsyn.extraction.percentages import Fit, fit_of
from evsyn.extraction.review import Review
from evsyn.extraction.rules.rule import ReviewRule, every_count
from evsyn.terms import Finding, Severity

NAME = "derivation-differs"
_SUM = re.compile(r"(?<![\d.%/])(\d+(?:\s*[-+−]\s*\d+)+)\s*=\s*(\d+)(?!\d|\.\d|%)")
_SHARE = re.compile(r"(\d+(?:\.\d+)?)%\s+of\s+(\d+)\s*=\s*(\d+)(?!\d|\.\d)")


def check(review: Review) -> Iterator[Finding]:
    """Yield a doubt for each piece of arithmetic that does not come out."""
    for placed in every_count(review):
        for wrong in _wrong(placed.count.derived or ""):
            yield Finding(
                NAME,
                Severity.DOUBT,
                placed.source,
                f"the arithmetic '{wrong}' does not come out",
                "Work it out again from the paper.",
            )


def _wrong(derived: str) -> Iterator[str]:
    for match in _SUM.finditer(derived):
        terms = re.findall(r"[-+−]?\s*\d+", match.group(1))
        left = sum(int(re.sub(r"\s", "", term).replace("−", "-")) for term in terms)
        if left != int(match.group(2)):
            yield match.group(0)
    for match in _SHARE.finditer(derived):
        percent, total, events = match.groups()
        if int(total) == 0 or fit_of(int(events), int(total), f"{percent}%") is Fit.IMPOSSIBLE:
            yield match.group(0)


RULE = ReviewRule(
    NAME,
    Severity.DOUBT,
    "A count worked out by the reader is recomputed: sums and differences, and a percentage of a "
    "total.",
    check,
)
