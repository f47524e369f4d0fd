"""``evsyn ask small``, as a user types it."""

import json

from tests.cli.ask.typing import DEMO, PUBLISHED, STUDIES, typed

TRIALS = str(STUDIES / "published-trials")


def told(*typed_words, code=0):
    return " ".join(typed("small", *typed_words, code=code).split())


def test_both_lines_stand_under_a_sentence():
    printed = typed("small", PUBLISHED, "perforation")
    assert max(map(len, printed.splitlines())) <= 80
    said = " ".join(printed.split())
    assert "Perforation, all studies: do small studies differ?" in said
    assert "Test that size makes no difference: P" in said
    assert "Exploratory." in said
    assert "Lopsided is not the same as publication bias" in said
    assert "Egger's test is not asked of single proportions" in said
    assert "Peters JL et al. JAMA 2006;295:676-680" in said
    assert "Exact model - read this" in said
    assert "Hardly to be trusted here: the studies differ much for other reasons" in said
    assert "Asked here: 1 pool, 1 test." in said


def test_below_ten_studies_the_test_is_refused_with_the_reason():
    said = told(DEMO, "perforation", "--level", "device_generation=radiological")
    assert "Not tested: 5 studies have a usable count, and 10 are wanted." in said
    assert "1 pool, no test" in said


def test_comparisons_of_a_plan_are_asked_too():
    said = told(TRIALS, "morbidity")
    assert "Morbidity, stent against surgery: do small studies differ?" in said
    assert "2 pools, no test" in said


def test_what_the_plan_forbids_is_refused():
    assert "Not tested: the plan forbids pooling." in told(DEMO, "reobstruction")


def test_fields_and_words_give_one_p():
    fields = json.loads(typed("small", DEMO, "technical_success", "--json"))
    (pool,) = fields["pools"]
    assert pool["reads_exact"] is True
    said = told(DEMO, "technical_success")
    assert f"P {pool['exact']['p']:.2f}, on {pool['exact']['df']} degrees" in said
    assert fields["comparisons"] == []


def test_an_unknown_outcome_is_answered_with_the_nearest():
    assert "Did you mean 'perforation'?" in told(DEMO, "perforations", code=1)


def test_a_pool_that_was_tested_is_drawn_over_size(tmp_path):
    out = tmp_path / "small.svg"
    assert "Written" in told(DEMO, "perforation", "-o", str(out))
    drawn = out.read_text(encoding="utf-8")
    assert "INVENTED" in drawn
    assert "Tansy 2014, 13 of 111" in drawn
    assert "Total of the study (logarithmic)" in drawn


def test_what_was_not_tested_is_not_drawn(tmp_path):
    out = str(tmp_path / "none.svg")
    assert "no line to draw" in told(DEMO, "reobstruction", "-o", out, code=1)
    levels = ("--level", "intent=palliation", "--level", "intent=bridge_to_surgery")
    assert "one pool" in told(DEMO, "perforation", *levels, "-o", out, code=1)
