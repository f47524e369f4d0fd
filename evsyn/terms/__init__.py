"""The words all rooms share: source, finding, interval, and fixed vocabularies."""

from evsyn.terms.finding import Answer, Finding, Severity
from evsyn.terms.interval import Interval
from evsyn.terms.source import Source
from evsyn.terms.words import (
    AS_PRINTED,
    MIXED,
    NOT_STATED,
    OVERALL,
    UNPLACED,
    Audience,
    Better,
    CountedBy,
    Covers,
    TextRead,
)

__all__ = [
    "AS_PRINTED",
    "MIXED",
    "NOT_STATED",
    "OVERALL",
    "UNPLACED",
    "Answer",
    "Audience",
    "Better",
    "CountedBy",
    "Covers",
    "Finding",
    "Interval",
    "Severity",
    "Source",
    "TextRead",
]
