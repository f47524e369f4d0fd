"""A recorded statement says honestly what was read of it, and what replaced it."""

from collections.abc import Iterator

from evsyn.extraction.claim_rules.rule import GuidelineRule
from evsyn.extraction.guidelines import Guidelines, GuidelineStatement, ReadAs, Status
from evsyn.extraction.plan import Plan
from evsyn.terms import Finding, Severity

NAME = "guideline-read"


def check(guidelines: Guidelines, plan: Plan) -> Iterator[Finding]:
    """Yield a fault where reading and memory, or status and successor, do not fit together."""
    for one in guidelines.statements:
        yield from _memory(one)
        yield from _successor(one)


def _memory(one: GuidelineStatement) -> Iterator[Finding]:
    unread = one.read is ReadAs.NOT_READ
    if unread is one.from_memory:
        return
    if unread:
        message = "'read' is 'not_read', and 'from_memory' is not true"
        cure = "Add 'from_memory: true', or say what was read."
    else:
        message = f"'from_memory' is true, and 'read' is '{one.read}'"
        cure = "Write 'read: not_read', or take 'from_memory' out once it has been read."
    yield Finding(NAME, Severity.FAULT, one.source("read"), message, cure)


def _successor(one: GuidelineStatement) -> Iterator[Finding]:
    replaced = one.status is Status.SUPERSEDED
    if replaced is (one.superseded_by is not None):
        return
    if replaced:
        message, cure = "'superseded_by' is missing", "Say what replaced it."
    else:
        message = f"'superseded_by' stands beside the status '{one.status}'"
        cure = "Correct the status, or take it out."
    yield Finding(NAME, Severity.FAULT, one.source("status"), message, cure)


RULE = GuidelineRule(
    NAME,
    Severity.FAULT,
    "A statement from memory is never quoted as read, and one that was replaced must say by what.",
    check,
)
