"""A reference of the log's own stands for one case."""

from collections.abc import Iterator, Sequence

from evsyn.extraction.case_log.case import Case
from evsyn.extraction.case_log.refused import doubt, rows_words, short
from evsyn.extraction.case_log.spelling import spelled
from evsyn.terms import Finding, Source


def same_references(file: str, cases: Sequence[Case]) -> Iterator[Finding]:
    """Yield a doubt for each reference that more than one row bears.

    Parameters
    ----------
    file : str
        Name of the log.
    cases : sequence of Case
        The cases.
    """
    by_ref: dict[str, list[Case]] = {}
    for case in cases:
        if case.ref:
            by_ref.setdefault(spelled(case.ref), []).append(case)
    for same in by_ref.values():
        if len(same) > 1:
            rows = [case.source.line for case in same]
            message = f"{rows_words(rows)} have the same reference, {short(same[0].ref)}"
            cure = "If it is one case, delete the row too many; else give each a reference."
            yield doubt(Source(file, rows[1]), message, cure)
