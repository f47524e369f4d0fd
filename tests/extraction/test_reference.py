"""The reference pages tell every field and every check, and are written whole."""

import pytest

from evsyn.extraction.plan import Plan
from evsyn.extraction.reference import checks_page, fields_page, main
from evsyn.extraction.rules import REVIEW_RULES, UNIT_RULES
from evsyn.extraction.study import Count, Study
from evsyn.extraction.unit import Unit


@pytest.mark.parametrize("record", [Plan, Study, Count, Unit])
def test_every_field_is_told_with_its_description(record):
    page = fields_page()
    for name, field in record.model_fields.items():
        row = f"| `{field.alias or name}` | {field.description}"
        assert row in page


def test_needed_fields_are_marked():
    assert "| `events` | how many had the outcome | needed |" in fields_page()
    assert "| `note` | anything a reader should know |  |" in fields_page()


def test_every_check_is_told_with_its_reason():
    page = checks_page()
    for rule in REVIEW_RULES + UNIT_RULES:
        assert f"| `{rule.name}` | {rule.severity} | {rule.why} |" in page


def test_both_pages_are_written(tmp_path):
    main(tmp_path / "new")
    for name, page in (("fields.md", fields_page()), ("checks.md", checks_page())):
        assert (tmp_path / "new" / name).read_text(encoding="utf-8") == page
