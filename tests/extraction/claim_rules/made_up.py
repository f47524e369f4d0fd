"""A valid claims file and valid guidelines beside the tiny review, of which a test changes one."""

from pathlib import Path

from evsyn.extraction.load import UnreadableError
from evsyn.extraction.load_claims import read_claims, read_guidelines
from evsyn.terms import Finding
from tests.extraction.builders import TinyReview

CLAIMS = """\
format: 1
title: An invented talk
invented: true
claims:
  - claim: low
    says: "Fewer than 10% perforate."
    about: evidence
    outcome: perforation
    scope: {intent: palliation}
    relation: below
    value: "10%"
  - claim: ours
    says: "Ours is lower than theirs."
    about: unit
    outcome: perforation
    relation: lower_than
    than: evidence
  - claim: two-weeks
    says: "They advise two weeks."
    about: guideline
    statement: fen2020
"""

GUIDELINES = """\
format: 1
guidelines: tiny
invented: true
no_pass_mark: [perforation]
statements:
  - id: fen2020
    body: the Fen Society (invented)
    year: 2020
    topic: interval
    statement: "The operation follows after two weeks."
    values: ["14 days"]
    published_in: "Fen J 2020;1:1 (invented)"
    read: abstract
    status: current
  - id: fen2010
    body: the Fen Society (invented)
    year: 2010
    topic: interval
    statement: "The operation follows after one week."
    published_in: "Fen J 2010;1:1 (invented)"
    read: not_read
    from_memory: true
    status: superseded
    superseded_by: fen2020
"""

CLAIMS_FILE, GUIDELINES_FILE = "claims.yaml", "guidelines.yaml"


class TinyTalk:
    """The tiny review with a talk and guidelines beside it."""

    def __init__(self, folder: Path) -> None:
        self.tiny = TinyReview(folder)
        self.folder = folder
        self.tiny.write(CLAIMS_FILE, CLAIMS).write(GUIDELINES_FILE, GUIDELINES)

    def found(self, name: str = "", old: str = "", new: str = "") -> list[Finding]:
        """Return what reading both files finds, with one piece of one of them changed."""
        if name:
            self.tiny.change(name, old, new)
        plan = self.tiny.read().plan
        try:
            guidelines = read_guidelines(self.folder, plan)
            return list(read_claims(self.folder / CLAIMS_FILE, plan, guidelines).findings)
        except UnreadableError as error:
            return list(error.findings)
