"""What is read without a fault fits its schema, and faults of shape are underlined.

The outside route is the `jsonschema` library, which knows nothing of how files are read here.
"""

import functools
from pathlib import Path

import pytest
from jsonschema import Draft202012Validator

from evsyn.extraction.load import PLAN_FILE, read_record
from evsyn.extraction.plan import Plan
from evsyn.extraction.schema.schemas import KINDS, schemas
from tests.extraction.builders import PLAN, REED, SEDGE, UNIT

ROOT = Path(__file__).parent.parent.parent.parent
FOLDERS = (*sorted((ROOT / "studies").iterdir()), ROOT / "tests" / "data" / "format-1")
FILES = [path for folder in FOLDERS for path in sorted(folder.glob("*.yaml"))]
TINY = {"review": PLAN, "study": REED, "unit": UNIT}
CLAIMS = """\
format: 1
title: An invented talk
claims:
  - claim: low
    says: It is rare
    about: evidence
    outcome: perforation
    relation: below
    value: 5%
"""
GUIDELINES = """\
format: 1
guidelines: tiny
invented: true
statements:
  - id: one
    body: The invented college
    topic: stents
    statement: They may be used.
    published_in: Journal of Invention
    read: text
    status: current
"""


@functools.cache
def plan_of(folder):
    plan, _ = read_record(folder / PLAN_FILE, Plan)
    return plan


def kind_of(text):
    """Return the kind of a file by the key that only it has."""
    keys = {line.partition(":")[0] for line in text.splitlines()}
    return next(kind for kind in KINDS if kind in keys)


@pytest.mark.parametrize("plan", [None, "demo"])
def test_each_is_a_schema(plan):
    made = schemas(plan_of(ROOT / "studies" / plan) if plan else None)
    assert set(made) == {"review", "study", "unit", "guidelines", "claims"}
    for schema in made.values():
        Draft202012Validator.check_schema(schema)


@pytest.mark.parametrize("path", FILES, ids=lambda path: f"{path.parent.name}-{path.stem}")
def test_every_kept_file_fits(path, underlines):
    text = path.read_text(encoding="utf-8")
    assert underlines(kind_of(text), text) == []
    assert underlines(kind_of(text), text, plan_of(path.parent)) == []


FAULTS = [
    ("study", "invented: true", "invented: yes", "$.invented"),
    ("study", "patients: 52", "patients: fifty", "$.arms[0].patients"),
    ("study", "patients: 52", "patients: 0", "$.arms[0].patients"),
    ("study", "events: 4\n", "events: 4.5\n", "$.arms[0].outcomes.perforation.events"),
    ("study", "events: 4\n", "event: 4\n", "$.arms[0].outcomes.perforation"),
    ("study", "format: 1", "format: 2", "$.format"),
    ("study", "study: 2001-reed", "study: 2001 reed", "$.study"),
    ("study", "on: 2026-01-05", "on: 05.01.2026", "$.extracted.on"),
    ("study", "on: 2026-01-05", "on: 2026-04-31", "$.extracted.on"),
    ("study", "from: 1995-03", "from: March 1995", "$.setting.recruited"),
    ("study", "from: full_text", "from: fulltext", "$.extracted.from"),
    ("study", "centres: [Alder General]", "centres: Alder General", "$.setting.centres"),
    ("study", "      success:", "      a success:", "$.arms[0].outcomes"),
    ("study", "arms:", "groups:", "$"),
    ("study", "year: 2001", "year: 1", "$.citation.year"),
    ("review", "better: fewer", "better: less", "$.outcomes.perforation.better"),
    ("review", "search: none", "search: PubMed", "$.search"),
    ("review", "    cut_year: 2005", "    cut_year: old", "$.strata.era"),
    ("review", "    asks: what it was meant for\n", "", "$.strata.intent"),
    ("unit", "counted_by: patient", "counted_by: patients", "$.counted_by"),
    ("unit", "frozen_on: 2025-06-30", "frozen_on: 2025", "$.frozen_on"),
    ("unit", "placed: 19", "placed: -1", "$.flow.placed"),
]


@pytest.mark.parametrize(("kind", "old", "new", "place"), FAULTS)
def test_a_fault_of_shape_is_underlined_in_its_place(kind, old, new, place, underlines):
    assert old in TINY[kind]
    found = underlines(kind, TINY[kind].replace(old, new, 1))
    assert place in found


@pytest.mark.parametrize(
    ("kind", "old", "new", "place"),
    [
        ("claims", "value: 5%", "value: 5%\n    values: 6%", "$.claims[0]"),
        ("claims", "about: evidence", "about: evidences", "$.claims[0].about"),
        ("guidelines", "status: current", "status: now", "$.statements[0].status"),
        ("guidelines", "    body: The invented college\n", "", "$.statements[0]"),
    ],
)
def test_claims_and_guidelines_are_underlined_too(kind, old, new, place, underlines):
    text = {"claims": CLAIMS, "guidelines": GUIDELINES}[kind]
    assert underlines(kind, text) == []
    assert place in underlines(kind, text.replace(old, new, 1))


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("title: An invented series", "title: 2001"),
        ("title: An invented series", "title: 7.70"),
        ("title: An invented series", "title:"),
        ("arm: all", "arm: 012"),
        ("to: 1999", "to: 1999-12-31"),
        ("to: 1999", 'to: "1999"'),
        ("on: 2026-01-05", 'on: "2026-01-05"'),
        ("centres: [Alder General]", "centres: 3"),
        ("country: Nowhere", "country: NO"),
    ],
)
def test_other_ways_of_writing_that_are_read_fit_too(old, new, tiny, underlines):
    tiny.reed(old, new)
    assert not tiny.read().faults
    assert underlines("study", REED.replace(old, new), tiny.read().plan) == []


def test_the_tiny_files_fit(tiny, underlines):
    plan = tiny.read().plan
    for kind, text in (*TINY.items(), ("study", SEDGE), ("claims", CLAIMS)):
        assert underlines(kind, text) == []
        assert underlines(kind, text, plan) == []
