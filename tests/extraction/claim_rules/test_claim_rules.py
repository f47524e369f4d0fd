"""What a claims file may not hold: one change each, and its one finding with line and cure."""

import pytest

from evsyn.extraction.claim_rules import CLAIM_RULES, GUIDELINE_RULES
from evsyn.terms import Severity
from tests.extraction.builders import line_of
from tests.extraction.claim_rules.made_up import CLAIMS_FILE, GUIDELINES_FILE, TinyTalk


@pytest.fixture
def talk(tmp_path):
    return TinyTalk(tmp_path)


def test_the_files_as_they_stand_are_sound(talk):
    assert talk.found() == []


def test_a_review_is_read_with_both_files_beside_it(talk):
    assert [study.study for study in talk.tiny.read().studies] == ["2001-reed", "2010-sedge"]
    assert not [one for one in talk.tiny.found() if one.source.file in (CLAIMS_FILE,)]


@pytest.mark.parametrize(
    ("old", "new", "rule", "message"),
    [
        # Fields.
        ('    value: "10%"\n', "", "claim-fields", "'value' is missing (evidence, below)"),
        ("    relation: below\n", "", "claim-fields", "'relation' is missing (evidence)"),
        ("claim: ours", "claim: low", "claim-fields", "'low' is also the claim on line 5"),
        ("    statement: fen2020\n", "", "claim-fields",
         "'statement' is missing (guideline, states)"),
        ("    statement: fen2020\n", "    statement: fen2020\n    value: 14 days\n",
         "claim-fields", "'value' has no use here (guideline, states)"),
        ("    relation: below\n    value: \"10%\"", "    relation: most\n    value: below 10%\n"
         "    edition: 2014", "claim-fields", "'edition' has no use here (evidence, most)"),
        ("    relation: lower_than\n    than: evidence", "    relation: most\n    value: below 5%",
         "claim-fields", "'most' counts series, and a unit is not a series"),
        # Words.
        ("{intent: palliation}", "{intend: palliation}", "names-known",
         "'intend' is not a stratum or characteristic of the plan"),
        ("{intent: palliation}", "{intent: paliation}", "names-known",
         "'paliation' is not a level of 'intent' of the plan"),
        ("{intent: palliation}", "{site: tongue}", "names-known",
         "'tongue' is not a level of 'site' of the plan"),
        ("{intent: palliation}", "{era: before_2001}", "names-known",
         "'before_2001' is not a level of 'era' of the plan"),
        ("{intent: palliation}", "{intent: palliation, era: before_2005}", "claim-words",
         "'era' is read from dates and cannot be crossed with another stratum"),
        ("    than: evidence", "    than: bridge", "claim-words",
         "'than: bridge' needs one stratum in 'scope', which has 0"),
        ("    statement: fen2020", "    statement: fen2021", "claim-words",
         "'fen2021' is not a statement recorded in guidelines.yaml"),
        # Values.
        ('value: "10%"', "value: ten", "claim-value", "'value' is 'ten', and must be as '7.4%'"),
        ('value: "10%"', "value: 0.1", "claim-value", "'value' is '0.1', and must be as '7.4%'"),
        ('value: "10%"', "value: 110%", "claim-value", "'value' is '110%', and must be as"),
        ('value: "10%"', "value: 2-10%", "claim-value", "'value' is '2-10%', and must be one nu"),
        ('value: "10%"', "value: below 10%", "claim-value", "'value' is 'below 10%', and must be"),
        ('relation: below', "relation: between", "claim-value", "'value' is '10%', and must be a"),
        ('relation: below', "relation: most", "claim-value", "'value' is '10%', and must be what"),
        ('    relation: below\n    value: "10%"',
         "    relation: at_least\n    series: few\n    value: below 10%", "claim-value",
         "'series' is 'few', and must be as '12' or '12 of 15'"),
        # Fields of the wrong kind, as in any file.
        ("relation: below", "relation: under", "readable",
         "'relation' is 'under', which is not a known word"),
        ("says: \"They advise two weeks.\"\n", "say: x\n", "readable", "'says' is missing"),
    ],
)  # fmt: skip
def test_a_fault_of_the_claims(talk, old, new, rule, message):
    found = [one for one in talk.found(CLAIMS_FILE, old, new) if one.rule == rule]
    assert found
    assert all(one.severity is Severity.FAULT and one.source.line > 0 for one in found)
    assert any(one.message.startswith(message) for one in found), found


def test_a_fault_names_the_line_of_its_field(talk):
    (found,) = talk.found(CLAIMS_FILE, 'value: "10%"', "value: ten")
    assert found.source.line == line_of(talk.folder, CLAIMS_FILE, "value: ten")


def test_a_sentence_with_another_number_is_a_doubt(talk):
    (found,) = talk.found(CLAIMS_FILE, "Fewer than 10%", "Fewer than 5%")
    assert (found.rule, found.severity) == ("claim-said", Severity.DOUBT)
    assert found.message == "the sentence says 5%, and 10% is weighed"


def test_a_sentence_with_the_same_number_in_words_is_none(talk):
    assert talk.found(CLAIMS_FILE, "Fewer than 10% perforate.", "Fewer than one in ten do.") == []


def test_decimals_are_part_of_the_number(talk):
    assert [one.rule for one in talk.found(CLAIMS_FILE, "Fewer than 10%", "Fewer than 10.0%")] == [
        "claim-said"
    ]


def test_a_statement_needs_recorded_guidelines(talk):
    (talk.folder / GUIDELINES_FILE).unlink()
    (found,) = talk.found()
    assert found.message.startswith("'fen2020' cannot be looked up")


@pytest.mark.parametrize(
    ("old", "new", "rule", "message"),
    [
        ("guidelines: tiny", "guidelines: other", "guideline-words",
         "these are the guidelines of 'other', beside 'tiny'"),
        ("invented: true", "invented: false", "guideline-words",
         "the guidelines are real and the review is invented"),
        ("[perforation]", "[perforations]", "names-known",
         "'perforations' is not an outcome of the plan"),
        ("id: fen2010", "id: fen2020", "guideline-words",
         "'fen2020' is also the statement on line 6"),
        ("    from_memory: true\n", "", "guideline-read",
         "'read' is 'not_read', and 'from_memory' is not true"),
        ("read: abstract", "read: abstract\n    from_memory: true", "guideline-read",
         "'from_memory' is true, and 'read' is 'abstract'"),
        ("    superseded_by: fen2020\n", "", "guideline-read", "'superseded_by' is missing"),
        ("status: current", "status: current\n    superseded_by: fen2010", "guideline-read",
         "'superseded_by' stands beside the status 'current'"),
        ("read: abstract", "read: glanced at", "readable",
         "'read' is 'glanced at', which is not a known word"),
        ("topic: interval\n    statement: \"The operation follows after two",
         "statement: \"The operation follows after two", "readable", "'topic' is missing"),
    ],
)  # fmt: skip
def test_a_fault_of_the_guidelines(talk, old, new, rule, message):
    found = talk.found(GUIDELINES_FILE, old, new)
    assert [one.rule for one in found] == [rule]
    assert found[0].message == message
    assert found[0].severity is Severity.FAULT


def test_every_check_has_a_name_of_its_own_and_a_reason():
    rules = [*CLAIM_RULES, *GUIDELINE_RULES]
    assert len({rule.name for rule in rules}) == len(rules)
    assert all(rule.why.endswith(".") for rule in rules)
