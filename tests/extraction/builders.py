"""A tiny valid review, written to a folder, of which a test changes one thing.

Studies, authors and counts are invented; no number here is a value to check against.
"""

from pathlib import Path
from typing import Self

from evsyn.extraction.load import CheckedUnit, UnreadableError, read_review, read_unit
from evsyn.extraction.review import Review
from evsyn.terms import Finding

PLAN = """\
format: 1
review: tiny
title: An invented review
question: How often does it go wrong?
invented: true
fixed_on: 2026-01-02
search: none
denominators: {attempted: patients attempted, placed: patients placed}
windows:
  30_days: {label: within 30 days, days: 30}
  follow_up: {label: up to the last follow-up}
flow: [attempted, placed]
outcomes:
  perforation:
    label: Perforation
    event: perforation
    events: perforations
    better: fewer
    denominators: [attempted, placed]
    windows: [30_days]
  success:
    label: Success
    event: success
    events: successes
    better: more
    denominators: [attempted]
strata:
  intent:
    label: Intent
    asks: what it was meant for
    levels: {palliation: palliation, bridge: bridge to surgery}
  era:
    label: Era
    cut_year: 2005
characteristics:
  study:
    operator: {label: Operator, kind: choice, levels: {surgeon: surgeon, other: another}}
  arm:
    site: {label: Site, kind: choice, levels: {rectum: rectum, left: left colon}}
    length: {label: Length, kind: number}
"""

REED = """\
format: 1
study: 2001-reed
invented: true
citation:
  authors: Reed A, Moss B
  title: An invented series
  year: 2001
setting:
  centres: [Alder General]
  country: Nowhere
  recruited: {from: 1995-03, to: 1999}
extracted: {by: XY, on: 2026-01-05, from: full_text, checked_by: ZW}
characteristics: {operator: surgeon}
arms:
  - arm: all
    covers: whole_study
    patients: 52
    strata: {intent: palliation}
    characteristics: {site: rectum, length: 4.5}
    outcomes:
      perforation:
        events: 4
        total: 52
        of: attempted
        window: 30_days
        at: Table 2, p. 5
        printed: "7.7%"
      success:
        events: 48
        total: 52
        of: attempted
        at: Table 2, p. 5
"""

SEDGE = """\
format: 1
study: 2010-sedge
invented: true
citation: {authors: Sedge C, title: Another invented series, year: 2010}
setting:
  centres: [Birch Infirmary]
  recruited: {from: 2004, to: 2008}
extracted: {by: XY, on: 2026-01-05, from: abstract}
arms:
  - arm: palliation
    patients: 30
    strata: {intent: palliation}
    outcomes:
      perforation: {events: 2, total: 30, of: attempted, window: 30_days, at: abstract}
  - arm: bridge
    patients: 25
    strata: {intent: bridge}
    outcomes:
      perforation: {events: 1, total: 25, of: attempted, window: 30_days, at: abstract}
"""

UNIT = """\
format: 1
unit: glade
label: Glade General
invented: true
period: {from: 2022-04, to: 2025-03}
frozen_on: 2025-06-30
complete: false
left_out:
  - {count: 1, why: notes not found}
follow_up: at least 90 days
counted_by: patient
expected_cases: {count: 21, according_to: devices issued}
flow: {attempted: 20, placed: 19}
own_studies: [2010-sedge]
groups:
  - strata: {intent: palliation}
    patients: 12
    outcomes:
      perforation: {events: 1, total: 12, of: attempted, window: 30_days}
  - strata: {intent: bridge}
    patients: 8
    outcomes:
      perforation: {events: 0, total: 8, of: attempted, window: 30_days}
"""

REED_FILE, SEDGE_FILE = "2001-reed.yaml", "2010-sedge.yaml"
PLAN_FILE, UNIT_FILE = "review.yaml", "unit-glade.yaml"


class TinyReview:
    """The tiny review on disk."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.write(PLAN_FILE, PLAN)
        self.write(REED_FILE, REED)
        self.write(SEDGE_FILE, SEDGE)
        self.write(UNIT_FILE, UNIT)

    def write(self, name: str, content: str | bytes) -> Self:
        raw = content if isinstance(content, bytes) else content.encode("utf-8")
        (self.folder / name).write_bytes(raw)
        return self

    def change(self, name: str, old: str, new: str) -> Self:
        """Replace a piece of one file that stands there exactly once."""
        text = (self.folder / name).read_text(encoding="utf-8")
        assert text.count(old) == 1, f"{old!r} stands {text.count(old)} times in {name}"
        return self.write(name, text.replace(old, new))

    def reed(self, old: str, new: str) -> Self:
        return self.change(REED_FILE, old, new)

    def sedge(self, old: str, new: str) -> Self:
        return self.change(SEDGE_FILE, old, new)

    def plan(self, old: str, new: str) -> Self:
        return self.change(PLAN_FILE, old, new)

    def unit(self, old: str, new: str) -> Self:
        return self.change(UNIT_FILE, old, new)

    def read(self) -> Review:
        return read_review(self.folder)

    def read_unit(self) -> CheckedUnit:
        return read_unit(self.folder / UNIT_FILE, self.read().plan)

    def found(self, rule: str | None = None) -> list[Finding]:
        """Return what reading the review finds, of one rule or of all."""
        try:
            findings = self.read().findings
        except UnreadableError as error:
            findings = error.findings
        return [one for one in findings if rule is None or one.rule == rule]

    def found_in_unit(self, rule: str | None = None) -> list[Finding]:
        try:
            findings = self.read_unit().findings
        except UnreadableError as error:
            findings = error.findings
        return [one for one in findings if rule is None or one.rule == rule]


def line_of(folder: Path, name: str, piece: str) -> int:
    """Return the line of a file on which a piece of text stands."""
    lines = (folder / name).read_text(encoding="utf-8").splitlines()
    return next(number for number, line in enumerate(lines, 1) if piece in line)
