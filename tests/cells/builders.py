"""Invented reviews, said in a few words: arms with counts, studies of arms, a plan."""

import json
from pathlib import Path

from evsyn.cells.cell import CellTable, Question
from evsyn.cells.table import cell_table
from evsyn.extraction.plan import Plan
from evsyn.extraction.review import Review
from evsyn.extraction.study import Study
from evsyn.extraction.yaml_text import parse_bytes

PLAN = {
    "format": 1,
    "review": "made",
    "title": "An invented review",
    "question": "How often?",
    "invented": True,
    "fixed_on": "2026-01-02",
    "search": "none",
    "denominators": {"attempted": "patients attempted", "placed": "patients placed",
                     "resected": "patients resected"},
    "windows": {"30_days": {"label": "within 30 days"}, "1_year": {"label": "within a year"},
                "ever": {"label": "at any time"}},
    "outcomes": {
        "leak": {"label": "Leak", "event": "leak", "events": "leaks", "better": "fewer",
                 "denominators": ["attempted", "placed"], "windows": ["30_days", "1_year"]},
        "success": {"label": "Success", "event": "success", "events": "successes",
                    "better": "more", "denominators": ["attempted"]},
    },
    "strata": {
        "intent": {"label": "Intent", "asks": "what for",
                   "levels": {"palliation": "palliation", "bridge": "bridge"}},
        "device": {"label": "Device", "asks": "which",
                   "levels": {"beside": "beside", "through": "through"}},
        "era": {"label": "Era", "cut_year": 2005},
    },
}  # fmt: skip


def plan_of(**changes) -> Plan:
    return Plan.model_validate(parse_bytes(json.dumps({**PLAN, **changes}).encode()).root)


def count(events, total, of="attempted", window="30_days", **more) -> dict:
    return {"events": events, "total": total, "of": of, "window": window, **more}


def arm(name, patients, leak=None, *, success=None, strata=None, **more) -> dict:
    """Write an arm; ``leak`` and ``success`` are counts, or pairs of events and total."""
    told = {"leak": leak, "success": success}
    outcomes = {
        outcome: one if isinstance(one, dict) else count(*one)
        for outcome, one in told.items()
        if one is not None
    }
    return {
        "arm": name,
        "patients": patients,
        "outcomes": outcomes,
        "strata": strata or {},
        **more,
    }


def whole(patients, leak=None, **more) -> dict:
    return arm("whole", patients, leak, covers="whole_study", **more)


def study_of(name, *arms, year=2010, recruited=None, overlaps=()) -> Study:
    written = {
        "format": 1,
        "study": name,
        "invented": True,
        "citation": {"authors": f"{name.title()} A", **({"year": year} if year else {})},
        "setting": {"recruited": recruited} if recruited else {},
        "overlaps": list(overlaps),
        "extracted": {"by": "XY", "on": "2026-01-05", "from": "abstract"},
        "arms": list(arms),
    }
    root = parse_bytes(json.dumps(written).encode()).root
    return Study.model_validate(root, context={"file": f"{name}.yaml"})


def overlap(other, kind="certain", keep=None) -> dict:
    return {"study": other, "kind": kind, "reason": "one trial", **({"keep": keep} if keep else {})}


def review_of(*studies, plan=None) -> Review:
    return Review(Path("made"), plan or plan_of(), studies)


def table_of(*studies, at=None, outcome="leak", plan=None, **more) -> CellTable:
    """Return the rows of one pool; ``at`` names a stratum and a level."""
    question = Question(outcome, *at) if at else Question(outcome)
    return cell_table(review_of(*studies, plan=plan), question, **more)


def rows(table: CellTable) -> dict[str, tuple[int, int]]:
    return {cell.study: (cell.events, cell.total) for cell in table.cells}
