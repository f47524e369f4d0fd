"""``evsyn ask differ``, as a user types it."""

import json

from tests.cli.ask.typing import DEMO, PUBLISHED, typed


def told(*typed_words, code=0):
    return " ".join(typed("differ", *typed_words, code=code).split())


def test_the_tables_stand_under_a_sentence_and_over_what_was_asked():
    printed = typed("differ", DEMO, "perforation", "--by", "intent")
    assert max(map(len, printed.splitlines())) <= 80
    said = " ".join(printed.split())
    assert "Perforation by intent: do the levels differ?" in said
    assert "Between palliation and bridge to surgery, the test of difference gives P 0.17" in said
    assert "5 studies stand at more than one level; see the robust lines." in said
    assert "Not in the test: mixed or not stated (3 studies, at no one level)." in said
    assert "Levels are compared between studies: era, centre and case mix move with them." in said
    assert "Q-between, as papers print" in said
    assert "Asked here: 3 pools, 1 test." in said


def test_what_is_quoted_is_what_pool_prints():
    fields = json.loads(typed("differ", DEMO, "perforation", "--by", "intent", "--json"))
    (stratum,) = fields["strata"]
    assert stratum["quoted"] == "exact_likelihood_ratio"
    (quoted,) = (one for one in stratum["tests"] if one["method"] == stratum["quoted"])
    pooled = " ".join(typed("pool", DEMO, "perforation", "--by", "intent").split())
    assert f"F {quoted['f']:.2f} on {quoted['df1']} and {quoted['df2']} degrees" in pooled
    assert stratum["robust"][0]["df"] > 4


def test_two_strata_are_crossed():
    said = told(DEMO, "perforation", "--cross", "device_generation,intent")
    assert "Perforation: device generation crossed with intent" in said
    assert "fewer than three studies: radiological with bridge to surgery." in said
    assert "Test of interaction" in said
    assert "none given" in said  # a robust line on fewer than 4 degrees of freedom
    assert "Asked here: 6 pools, 4 tests." in said


def test_a_crossing_that_cannot_be_told_is_refused_in_a_sentence():
    said = told(DEMO, "migration", "--cross", "device_generation,intent")
    assert (
        "No model of both strata: the crossings with three studies or more do not hold two levels "
        "of each." in said
    )
    fields = json.loads(
        typed("differ", DEMO, "migration", "--cross", "device_generation,intent", "--json")
    )
    assert fields["crossed"]["model"] is None
    assert fields["asked"]["tests"] == 0


def test_levels_that_cannot_be_compared_are_refused_in_a_sentence():
    said = told(DEMO, "reobstruction", "--by", "intent")
    assert "No test of difference: the plan forbids pooling." in said


def test_every_stratum_of_real_papers_is_asked_by_default():
    said = told(PUBLISHED, "perforation")
    assert "Perforation by device generation" in said
    assert "Perforation by era of recruitment" in said


def test_unknown_words_are_answered_with_the_nearest():
    assert "Did you mean 'intent'?" in told(DEMO, "perforation", "--by", "intention", code=1)
    assert "two different strata" in told(DEMO, "perforation", "--cross", "intent", code=1)
    assert "not a stratum with levels" in told(DEMO, "perforation", "--cross", "era,intent", code=1)
