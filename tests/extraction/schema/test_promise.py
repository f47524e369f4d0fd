"""Whatever is read without a fault fits its schema, on any change of a value.

One value of a tiny file is exchanged for another; where the file still reads, the outside reader
of schemas must find nothing to underline.
"""

import re

import pytest
from hypothesis import event, example, given
from hypothesis import strategies as st
from pydantic import ValidationError

from evsyn.extraction.load import read_review
from evsyn.extraction.plan import Plan
from evsyn.extraction.schema.schemas import KINDS
from evsyn.extraction.yaml_text import parse_bytes
from tests.extraction.builders import PLAN, REED, SEDGE, UNIT, TinyReview
from tests.extraction.schema.conftest import underlined

FILES = (("review", PLAN), ("study", REED), ("study", SEDGE), ("unit", UNIT))
_VALUE = re.compile(r"(?<=: )[^\s{}\[\],][^{}\[\],\n]*")
SPOTS = [(kind, text, match.span()) for kind, text in FILES for match in _VALUE.finditer(text)]
_PLAN = Plan.model_validate(parse_bytes(PLAN.encode()).root)

WRITTEN = (
    "true", "False", "null", "~", "012", "1e3", "1e-3", "0x1F", "+5", "1999-03", "2001", "'2001'",
    "''", "' '", "none", "yes", "[]", "{}", "[a]", "[1, 2]", "{a: b}", "30_days", "attempted",
    "as_printed", "mixed", "bridge", "abstract", "surgeon", "more", "device",
)  # fmt: skip
scalars = st.one_of(
    st.integers(-5, 3000).map(str),
    st.decimals(-5, 3000, places=2).map(str),
    st.dates().map(str),
    st.sampled_from(WRITTEN),
    st.text(st.characters(codec="ascii", exclude_categories=["C"]), max_size=12).map(
        lambda text: "'" + text.replace("'", "''") + "'"
    ),
)


@pytest.fixture(scope="module")
def tiny_folder(tmp_path_factory):
    return TinyReview(tmp_path_factory.mktemp("tiny")).folder


def changed(spot, value):
    kind, text, (begin, end) = spot
    return kind, f"{text[:begin]}{value}{text[end:]}"


def reads(kind, text):
    root = parse_bytes(text.encode()).root
    try:
        return root is not None and bool(KINDS[kind].model_validate(root))
    except ValidationError:
        return False


@given(st.sampled_from(SPOTS), scalars)
@example(SPOTS[1], "1e-3")
def test_what_is_read_fits(spot, value):
    kind, text = changed(spot, value)
    is_read = reads(kind, text)
    event(f"{kind} {'read' if is_read else 'refused'}")
    if is_read:
        assert underlined(kind, text) == []


@pytest.mark.parametrize("kind", ["review", "study", "unit"])
def test_a_group_where_a_value_belongs_is_underlined(kind):
    wrong = "{nothing: of this}"
    refused = [changed(spot, wrong)[1] for spot in SPOTS if spot[0] == kind]
    parsed = [text for text in refused if parse_bytes(text.encode()).root is not None]
    assert len(parsed) > 10
    for text in parsed:
        assert not reads(kind, text)
        assert underlined(kind, text) != []


@given(st.sampled_from([spot for spot in SPOTS if spot[0] == "study"]), scalars)
def test_what_is_read_in_a_plans_words_fits_them(tiny_folder, spot, value):
    kind, text = changed(spot, value)
    if not reads(kind, text):
        return
    own = "2001-reed.yaml" if spot[1] is REED else "2010-sedge.yaml"
    faults = read_review(tiny_folder, {own: text}).faults
    words = [one for one in faults if one.rule in ("names-known", "readable")]
    event("in the plan's words" if not words else "in others")
    if not words:
        assert underlined(kind, text, _PLAN) == []
