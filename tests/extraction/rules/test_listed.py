"""Every check is listed, named once, explained, and has a test file of its own."""

from importlib import import_module
from pathlib import Path

import pytest

from evsyn.extraction import rules
from evsyn.extraction.rules import REVIEW_RULES, UNIT_RULES

MODULES = sorted(
    path.stem
    for path in Path(rules.__file__).parent.glob("*.py")
    if path.stem not in ("__init__", "rule")
)


@pytest.mark.parametrize("module", MODULES)
def test_each_check_is_listed_and_tested(module):
    rule = import_module(f"evsyn.extraction.rules.{module}").RULE
    assert rule in REVIEW_RULES + UNIT_RULES
    assert (Path(__file__).parent / f"test_{module}.py").is_file()


def test_each_listed_check_has_a_file():
    assert len(REVIEW_RULES + UNIT_RULES) == len(MODULES)


def test_names_are_used_once_and_reasons_are_sentences():
    names = [rule.name for rule in REVIEW_RULES + UNIT_RULES]
    assert len(set(names)) == len(names)
    for rule in REVIEW_RULES + UNIT_RULES:
        assert rule.why[0].isupper()
        assert rule.why.endswith(".")
