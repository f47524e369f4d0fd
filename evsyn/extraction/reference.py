"""The reference pages of fields and checks, made from the code that reads and checks."""

import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from pydantic import BaseModel

from evsyn.extraction import unread
from evsyn.extraction.case_log import refused
from evsyn.extraction.claim_rules import CLAIM_RULES, GUIDELINE_RULES
from evsyn.extraction.claims import Claims
from evsyn.extraction.guidelines import Guidelines
from evsyn.extraction.plan import Plan
from evsyn.extraction.rules import REVIEW_RULES, UNIT_RULES
from evsyn.extraction.schema import folder
from evsyn.extraction.sheet import told
from evsyn.extraction.study import Study
from evsyn.extraction.unit import Unit

FILES = (
    ("review.yaml: the plan of a review", Plan),
    ("One study: STUDY.yaml", Study),
    ("One unit's own figures", Unit),
    ("claims.yaml: the sentences of a talk", Claims),
    ("guidelines.yaml: what guidelines say", Guidelines),
)


def fields_page() -> str:
    """Return the field reference as Markdown: every field of every kind of file."""
    parts = [
        "# Fields of the files",
        "Made from the code by `make reference`; do not edit. A field without 'needed' may be "
        "left out. Files are read as YAML 1.2: `no` is text, `012` is twelve, dates are text.",
    ]
    told: set[type[BaseModel]] = set()
    for title, model in FILES:
        parts.append(f"## {title}")
        for record in _records(model):
            if record in told:
                continue
            told.add(record)
            if record is not model:
                parts.append(f"### {record.__name__}")
            parts.append((record.__doc__ or "").strip())
            parts.append(_table(record))
    return "\n\n".join(parts) + "\n"


def checks_page() -> str:
    """Return the reference of checks as Markdown."""
    parts = [
        "# Checks",
        "Made from the code by `make reference`; do not edit. A **fault** forbids pooling, a "
        "**doubt** is pooled and counted until it is answered, a **note** asks for nothing. The "
        "name is what an `answers` entry gives as its `rule`.",
        "## Of a review",
        _rules(REVIEW_RULES),
        "## Of a unit's own figures",
        _rules(UNIT_RULES),
        "## Of claims",
        _rules(CLAIM_RULES),
        "## Of guidelines",
        _rules(GUIDELINE_RULES),
        "## Before any of these",
        f"`{unread.RULE}`, a doubt: {unread.WHY}",
        "`readable`: a file that is not YAML 1.2 in UTF-8, or whose fields are missing, unknown "
        "or of the wrong kind, is a fault that names the line and the field.",
        f"`{refused.RULE}`, a fault: {refused.WHY}",
        f"`{folder.RULE}`, a note: {folder.WHY}",
        f"`{told.RULE}`, of a workbook: {told.WHY}",
    ]
    return "\n\n".join(parts) + "\n"


def _rules(rules: Any) -> str:
    lines = ["| name | severity | what and why |", "|---|---|---|"]
    lines += [f"| `{rule.name}` | {rule.severity} | {rule.why} |" for rule in rules]
    return "\n".join(lines)


def _table(record: type[BaseModel]) -> str:
    lines = ["| field | what it holds | needed |", "|---|---|---|"]
    for name, field in record.model_fields.items():
        needed = "needed" if field.is_required() else ""
        inner = ", ".join(f"see {one.__name__}" for one in _inner(field.annotation))
        held = "; ".join(part for part in (field.description or "", inner) if part)
        lines.append(f"| `{field.alias or name}` | {held} | {needed} |")
    return "\n".join(lines)


def _records(model: type[BaseModel]) -> list[type[BaseModel]]:
    found = [model]
    for record in found:
        for field in record.model_fields.values():
            found += [one for one in _inner(field.annotation) if one not in found]
    return found


def _inner(annotation: Any) -> Iterator[type[BaseModel]]:
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        yield annotation
    for argument in getattr(annotation, "__args__", ()):
        yield from _inner(argument)


def main(target: Path) -> None:
    """Write both pages into a folder."""
    target.mkdir(parents=True, exist_ok=True)
    (target / "fields.md").write_text(fields_page(), encoding="utf-8")
    (target / "checks.md").write_text(checks_page(), encoding="utf-8")


if __name__ == "__main__":
    main(Path(sys.argv[1]))
