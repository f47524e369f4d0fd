"""The words of one plan are the only ones allowed, and are told with their meanings."""

import pytest

from evsyn.extraction.schema.schemas import schemas
from tests.extraction.builders import REED, UNIT

CLAIM = """\
format: 1
title: An invented talk
claims:
  - claim: low
    says: It is rare
    about: evidence
    outcome: perforation
    scope: {intent: palliation}
    window: 30_days
    of: attempted
    relation: lower_than
    than: bridge
"""


@pytest.mark.parametrize(
    ("old", "new", "place"),
    [
        ("perforation:\n", "perforatoin:\n", "$.arms[0].outcomes"),
        ("of: attempted", "of: atempted", "$.arms[0].outcomes.perforation.of"),
        ("window: 30_days", "window: 90_days", "$.arms[0].outcomes.perforation.window"),
        ("{intent: palliation}", "{intent: paliation}", "$.arms[0].strata.intent"),
        ("{intent: palliation}", "{era: before_2005}", "$.arms[0].strata"),
        ("site: rectum", "site: colon", "$.arms[0].characteristics.site"),
        ("operator: surgeon", "operators: surgeon", "$.characteristics"),
    ],
)
def test_a_word_the_plan_does_not_have_is_underlined(old, new, place, tiny, underlines):
    plan = tiny.read().plan
    tiny.reed(old, new) if REED.count(old) == 1 else None
    text = REED.replace(old, new, 1)
    assert underlines("study", text) == []
    assert underlines("study", text, plan) == [place]


@pytest.mark.parametrize("word", ["of: as_printed", "of: placed"])
def test_words_of_fixed_meaning_stand_beside_the_plans(word, tiny, underlines):
    assert underlines("study", REED.replace("of: attempted", word), tiny.read().plan) == []


@pytest.mark.parametrize("level", ["mixed", "not_stated", "bridge"])
def test_a_level_may_be_mixed_or_not_stated(level, tiny, underlines):
    text = REED.replace("intent: palliation", f"intent: {level}")
    assert underlines("study", text, tiny.read().plan) == []


@pytest.mark.parametrize(
    ("old", "new", "place"),
    [
        ("of: attempted", "of: as_printed", "$.groups[0].outcomes.perforation.of"),
        ("placed: 19", "crossed: 19", "$.flow"),
        ("{intent: palliation}", "{purpose: palliation}", "$.groups[0].strata"),
    ],
)
def test_a_units_words_are_the_plans(old, new, place, tiny, underlines):
    text = UNIT.replace(old, new, 1)
    assert underlines("unit", text) == []
    assert underlines("unit", text, tiny.read().plan) == [place]


@pytest.mark.parametrize(
    ("old", "new", "place"),
    [
        ("outcome: perforation", "outcome: holes", "$.claims[0].outcome"),
        ("window: 30_days", "window: not_stated", "$.claims[0].window"),
        ("intent: palliation", "intent: mixed", "$.claims[0].scope.intent"),
        ("than: bridge", "than: surgery", "$.claims[0].than"),
    ],
)
def test_a_claims_words_are_the_plans(old, new, place, tiny, underlines):
    plan = tiny.read().plan
    assert underlines("claims", CLAIM, plan) == []
    text = CLAIM.replace(old, new, 1)
    assert underlines("claims", text) == []
    assert underlines("claims", text, plan) == [place]


def test_treatments_are_needed_where_the_plan_lists_them(tiny, underlines):
    tiny.plan("strata:\n", "treatments: {stent: a stent, surgery: an operation}\nstrata:\n")
    plan = tiny.read().plan
    assert underlines("study", REED, plan) == ["$.arms[0]"]
    told = REED.replace("covers: whole_study", "treatment: stent")
    assert underlines("study", told, plan) == []
    assert underlines("study", told.replace("stent", "stents"), plan) == ["$.arms[0].treatment"]


def test_meanings_stand_where_one_chooses(tiny):
    tiny.plan("better: fewer", "better: fewer\n    definition: a hole in the bowel")
    made = schemas(tiny.read().plan)["study"]["$defs"]
    basis = made["Count"]["properties"]["of"]
    told = dict(zip(basis["enum"], basis["enumDescriptions"], strict=True))
    assert told["attempted"] == "patients attempted"
    assert "placed: patients placed" in basis["description"]
    outcomes = made["Arm"]["properties"]["outcomes"]["properties"]
    assert "a hole in the bowel" in outcomes["perforation"]["description"]
    assert "attempted (patients attempted)" in outcomes["perforation"]["description"]


def test_a_word_that_looks_like_a_number_may_stand_without_quotation_marks(tiny, underlines):
    tiny.plan("{palliation: palliation,", "{palliation: palliation, 2005: late,")
    tiny.reed("intent: palliation", "intent: 2005")
    assert not tiny.read().faults
    text = REED.replace("intent: palliation", "intent: 2005")
    assert underlines("study", text, tiny.read().plan) == []


def test_the_plans_own_file_may_take_a_new_word(tiny):
    assert schemas(tiny.read().plan)["review"] == schemas()["review"]
