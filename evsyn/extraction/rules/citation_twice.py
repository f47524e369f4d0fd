"""One paper must not stand in a review as two studies."""

from collections.abc import Iterator

from evsyn.extraction.references.same import papers_of, same_pairs
from evsyn.extraction.review import Review
from evsyn.extraction.rules.rule import ReviewRule
from evsyn.terms import Finding, Severity

NAME = "citation-twice"


def check(review: Review) -> Iterator[Finding]:
    """Yield a doubt for each two studies of which one paper, or a further report, is the same."""
    papers = [paper for study in review.studies for paper in papers_of(study)]
    # A declared overlap says already what is shared; of a certain one, one study is pooled.
    told = {
        frozenset((study.study, overlap.study))
        for study in review.studies
        for overlap in study.overlaps
    }
    for earlier, later, reason in same_pairs([cited for _, cited in papers]):
        one, (other, cited) = papers[earlier][0], papers[later]
        pair = frozenset((one.study, other.study))
        if one is other or pair in told:
            continue
        told.add(pair)
        yield Finding(
            NAME,
            Severity.DOUBT,
            cited.source(),
            f"cites the same paper as {one.study}: {reason}",
            "If both are one study, keep one file; if patients are shared, add an 'overlaps' "
            "entry; if the paper tells of two groups of patients, answer this doubt and say so.",
        )


RULE = ReviewRule(
    NAME,
    Severity.DOUBT,
    "One paper in two files is pooled twice. Papers are the same by DOI, PubMed number, title in "
    "years no more than one apart, or address; further reports count too.",
    check,
)
