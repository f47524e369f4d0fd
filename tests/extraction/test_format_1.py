"""A frozen copy of format 1, every field used, stays readable by every later version."""

from pathlib import Path

import pytest

from evsyn.extraction.load import read_review, read_unit

FOLDER = Path(__file__).parent.parent / "data" / "format-1"

CITATION = {
    "authors": "Lark A, Wren B",
    "title": "A frozen series",
    "journal": "Journal of Invention",
    "year": 2003,
    "pages": "12(3):45-67",
    "doi": "10.0000/frozen.1",
    "pmid": "00123",
    "address": "https://example.org/frozen",
    "note": "Pages as printed.",
}
COUNT = {
    "events": 4,
    "total": 52,
    "of": "attempted",
    "window": "at_procedure",
    "counted_by": "procedure",
    "at": "Table 2, p. 5",
    "printed": "7.70",
    "derived": "3 + 1 = 4",
    "assumed": True,
    "follow_up": "30 days",
    "definition": "seen at the procedure",
    "site": "at the stricture",
    "attribution": "wire",
    "note": "one was late",
}
STUDY = {
    "format": 1,
    "study": "2003-lark",
    "invented": True,
    "citation": CITATION,
    "reports": [
        {
            "citation": {"authors": "Lark A", "year": 2005, "note": "A later letter."},
            "adds": "follow-up",
        }
    ],
    "overlaps": [
        {"study": "2005-wren", "kind": "certain", "reason": "one trial", "keep": "2003-lark"}
    ],
    "design": "prospective series",
    "setting": {
        "centres": ["North House", "South House"],
        "country": "NO",
        "recruited": {"from": "1998-05-12", "to": "2001"},
        "recruited_note": "three years",
    },
    "extracted": {"by": "XY", "on": "2026-01-05", "from": "full_text", "checked_by": "ZW"},
    "characteristics": {"operator": "surgeon"},
    "arms": [
        {
            "arm": "all",
            "covers": "whole_study",
            "label": "all adults",
            "strata": {"intent": "mixed"},
            "characteristics": {"length": "4.50", "site": "rectum"},
            "patients": 50,
            "procedures": 52,
            "outcomes": {"perforation": COUNT},
        },
        {
            "arm": "palliation",
            "covers": "part",
            "part_of": "all",
            "strata": {"intent": "palliation"},
            "patients": 12,
        },
    ],
    "also_printed": [
        {"what": "men", "events": 30, "totals": [50, 52], "printed": "60%", "at": "p. 3"}
    ],
    "sums": [{"what": "sides", "parts": [20, 30], "total": 50, "at": "p. 4"}],
    "notes": ["no late deaths"],
    "answers": [
        {
            "rule": "percentage-fits",
            "at": "all.perforation",
            "reason": "one decimal too many",
            "by": "ZW",
            "on": "2026-01-06",
        }
    ],
}
PLAN = {
    "format": 1,
    "review": "frozen",
    "title": "A frozen review",
    "question": "Can an old file still be read?",
    "invented": True,
    "fixed_on": "2026-01-02",
    "search": [
        {
            "name": "An invented index",
            "on": "2026-01-01",
            "strategy": "bowel and stent",
            "records": 412,
        }
    ],
    "search_note": "Chosen by hand.",
    "population": "adults",
    "denominators": {
        "attempted": "adults in whom it was attempted",
        "placed": "adults in whom it was placed",
    },
    "windows": {
        "at_procedure": {"label": "during the procedure", "days": 0},
        "follow_up": {"label": "up to the last follow-up", "days": None},
    },
    "flow": ["attempted", "placed"],
    "outcomes": {
        "perforation": {
            "label": "Perforation",
            "event": "perforation",
            "events": "perforations",
            "better": "fewer",
            "definition": "a hole in the bowel wall",
            "denominators": ["attempted", "placed"],
            "windows": ["at_procedure", "follow_up"],
            "do_not_pool": "follow-up differs too much",
        }
    },
    "strata": {
        "intent": {
            "label": "Intent",
            "levels": {"palliation": "palliation", "bridge": "bridge to surgery"},
            "asks": "what it was meant for",
            "look_up": "whether counts are given apart",
        },
        "era": {
            "label": "Era of recruitment",
            "cut_year": 2004,
            "shift": 3,
            "stands_in_for": "intent",
        },
    },
    "characteristics": {
        "study": {"operator": {"label": "Operator", "kind": "text"}},
        "arm": {
            "length": {"label": "Length in cm", "kind": "number"},
            "site": {
                "label": "Site",
                "kind": "choice",
                "levels": {"rectum": "rectum", "left": "left colon"},
            },
        },
    },
    "pooling": {"between": "restricted_ml", "level": 0.9, "procedures_per_patient": 1.2},
}
UNIT = {
    "format": 1,
    "unit": "frost",
    "label": "Frost General",
    "invented": True,
    "period": {"from": "2022-04", "to": "2025-03"},
    "frozen_on": "2025-06-30",
    "complete": False,
    "left_out": [{"count": 2, "why": "notes not found"}],
    "follow_up": "at least 90 days",
    "counted_by": "patient",
    "expected_cases": {"count": 22, "according_to": "devices issued"},
    "flow": {"attempted": 20, "placed": 19},
    "own_studies": ["2003-lark"],
    "groups": [
        {
            "strata": {"intent": "palliation"},
            "patients": 20,
            "outcomes": {
                "perforation": {
                    "events": 1,
                    "total": 20,
                    "of": "attempted",
                    "window": "at_procedure",
                    "note": "on day 0",
                }
            },
        }
    ],
}


def leaves(value, path=()):
    """Yield every field of nested plain data with the way down to it."""
    if isinstance(value, dict):
        for key, inner in value.items():
            yield from leaves(inner, (*path, key))
    elif isinstance(value, list):
        yield (*path, "length"), len(value)
        for number, inner in enumerate(value):
            yield from leaves(inner, (*path, number))
    else:
        yield path, value


def told(path):
    return ".".join(map(str, path))


REVIEW = read_review(FOLDER)
READ = {
    "plan": REVIEW.plan,
    "study": REVIEW.study("2003-lark"),
    "unit": read_unit(FOLDER / "unit.yaml", REVIEW.plan).unit,
}
FOUND = {kind: dict(leaves(read.model_dump(by_alias=True))) for kind, read in READ.items()}
FIELDS = [
    pytest.param(kind, path, value, id=f"{kind}.{told(path)}")
    for kind, expected in {"plan": PLAN, "study": STUDY, "unit": UNIT}.items()
    for path, value in leaves(expected)
]


@pytest.mark.parametrize(("kind", "path", "value"), FIELDS)
def test_each_field_reads_as_it_was_written(kind, path, value):
    assert FOUND[kind][path] == value
    assert isinstance(FOUND[kind][path], type(value))


def test_the_other_study():
    study = REVIEW.study("2005-wren")
    assert study.setting.centres == 3
    assert study.extracted.from_ == "second_hand"
    assert study.citation.year is None


def test_nothing_but_the_planted_oddities_is_found():
    assert REVIEW.faults == ()
    assert {(one.rule, one.answer is not None) for one in REVIEW.findings} == {
        ("percentage-fits", True),
        ("denominator-assumed", False),
    }


def test_every_place_is_kept():
    source = REVIEW.study("2003-lark").arms[0].outcomes["perforation"].source("printed")
    assert (source.file, source.line) == ("2003-lark.yaml", 51)
    assert source.key_path == "arms.0.outcomes.perforation.printed"
