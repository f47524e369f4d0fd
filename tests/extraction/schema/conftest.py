"""What an editor would underline: faults of shape, found by an independent JSON Schema reader."""

import functools

import pytest
from jsonschema import Draft202012Validator

from evsyn.extraction.schema.schemas import schemas
from evsyn.extraction.yaml_text import parse_bytes


@functools.cache
def _general():
    return schemas()


_OF_PLANS = {}


def _of(plan):
    """Return the schemas of a plan, made once for each plan a test holds."""
    kept, made = _OF_PLANS.get(id(plan), (None, None))
    if kept is not plan:
        made = schemas(plan)
        _OF_PLANS[id(plan)] = (plan, made)
    return made


def underlined(kind, text, plan=None):
    """Return the places of a file, as ``$.arms[0].patients``, that do not fit its schema."""
    read = parse_bytes(text.encode())
    assert read.root is not None, read.troubles
    validator = Draft202012Validator((_general() if plan is None else _of(plan))[kind])
    return sorted(error.json_path for error in validator.iter_errors(read.root))


@pytest.fixture
def underlines():
    return underlined
