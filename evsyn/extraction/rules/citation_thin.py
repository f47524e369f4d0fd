"""A paper must be one that a reader can find again."""

from collections.abc import Iterator

from evsyn.extraction.review import Review
from evsyn.extraction.rules.rule import ReviewRule
from evsyn.terms import Finding, Severity

NAME = "citation-thin"


def check(review: Review) -> Iterator[Finding]:
    """Yield a doubt for each study that cannot be found again from its citation."""
    for study in review.studies:
        cited = study.citation
        if cited.doi or cited.pmid or cited.title:
            continue
        if study.invented and cited.authors:
            continue
        yield Finding(
            NAME,
            Severity.DOUBT,
            study.source("citation"),
            "the citation has no title, DOI or PubMed number",
            "Add one of them.",
        )


RULE = ReviewRule(
    NAME, Severity.DOUBT, "A study that cannot be found again cannot be checked.", check
)
