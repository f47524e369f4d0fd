"""Citations as they would stand in an extract, each below what is known of it."""

from collections.abc import Sequence
from textwrap import fill

import yaml

from evsyn.extraction.references.read import ReferencesRead
from evsyn.extraction.references.same import Duplicate, duplicates
from evsyn.extraction.review import Review
from evsyn.extraction.writing.text import yaml_text
from evsyn.reporting.findings import finding_text
from evsyn.terms import Finding
from evsyn.wording import references as words

WIDTH = 80


def cite_text(read: ReferencesRead, review: Review | None, alphabet: str = "utf-8") -> str:
    """Return a ``citation`` block a record; what is said of it stands above, as remarks.

    Parameters
    ----------
    read : ReferencesRead
        The records.
    review : Review or None
        Where given, whose papers they are compared with.
    alphabet : str
        Encoding of what it is printed on. Letters it lacks are written as YAML writes them
        in plain ones, so that what is pasted into an extract is still the same.
    """
    found = duplicates([*read.citations], review)
    blocks = []
    for record in read.citations:
        said = [words.record_from(str(record.source), record.layout)]
        same = [one for one in found if one.record is record]
        said += [_same(one) for one in same]
        if review is not None and not any(one.study for one in same):
            said.append(words.not_in_review(len(review.studies)))
        fields = {"citation": record.citation.model_dump(exclude_none=True)}
        block = yaml_text(fields)
        if not _is_in(block, alphabet):
            said.append(words.letters_lacking())
            block = str(yaml.safe_dump(fields, sort_keys=False, width=WIDTH))
        blocks.append("\n".join((*map(_remark, said), block)))
    return "\n".join(blocks).rstrip("\n")


def cite_findings(name: str, number: int, findings: Sequence[Finding]) -> str:
    """Return how many records were read and what a reader should look at."""
    return "\n".join((words.records_read(name, number), *map(finding_text, findings)))


def _is_in(text: str, alphabet: str) -> bool:
    try:
        text.encode(alphabet)
    except UnicodeEncodeError:
        return False
    return True


def _same(one: Duplicate) -> str:
    place = str(one.source)
    if one.study:
        return words.same_as_study(one.study, place, one.reason)
    return words.same_as_record(place, one.reason)


def _remark(text: str) -> str:
    # A long word, as a DOI, is not cut: what follows a line's end would no longer be a remark.
    return fill(
        text,
        WIDTH,
        initial_indent="# ",
        subsequent_indent="# ",
        break_long_words=False,
        break_on_hyphens=False,
    )
