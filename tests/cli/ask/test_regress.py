"""``evsyn ask regress``, as a user types it."""

import json

from tests.cli.ask.typing import DEMO, PUBLISHED, typed


def told(*typed_words, code=0):
    return " ".join(typed("regress", *typed_words, code=code).split())


def test_both_models_stand_in_one_table_and_rates_below():
    printed = typed("regress", DEMO, "perforation", "--on", "year")
    assert max(map(len, printed.splitlines())) <= 80
    said = " ".join(printed.split())
    assert "Perforation, regressed on year of publication" in said
    assert "Over 26 studies, by the exact binomial-normal model, odds ratio 0.69" in said
    assert "10 years later (publication)" in said
    assert "Exact binomial-normal model - read this" in said
    assert "Restricted ML, Hartung-Knapp (floored)" in said
    assert "published in 1996" in said
    assert "Studies are compared here, and not patients" in said
    assert "Asked here: 1 pool, 1 test." in said


def test_several_rows_of_a_study_bring_a_robust_line():
    said = told(DEMO, "perforation", "--on", "intent", "--on", "year")
    assert "Over 23 studies (28 rows)" in said
    assert "5 studies give several rows, which it takes for rows of several studies" in said
    assert "Two-step, robust to rows of one study (CR2)" in said
    assert "All columns together: F" in said
    assert "(no one value of intent)" in said
    assert "Asked here: 1 pool, 3 tests." in said


def test_too_few_studies_are_refused_with_their_number():
    said = told(DEMO, "perforation", "--on", "operator")
    assert "10 studies are wanted for each column, here 20 for 2 columns" in said
    assert "15 studies have a count and all values" in said
    assert "no test" in said


def test_columns_that_tell_each_other_are_named():
    said = told(DEMO, "perforation", "--on", "recruited", "--on", "year")
    assert "variance inflation above 5" in said
    assert "published in 1996" not in said


def test_no_sentence_speaks_of_causes():
    said = told(DEMO, "perforation", "--on", "year").lower()
    for word in ("because of", "due to", "effect of", "leads to", "improve", "reduces"):
        assert word not in said


def test_fields_hold_every_row():
    fields = json.loads(typed("regress", PUBLISHED, "perforation", "--on", "year", "--json"))
    assert fields["invented"] is False
    found = fields["regression"]
    assert len(fields["rows"]) == found["rows"] == found["studies"]
    assert found["models"][0]["coefficients"][1]["name"] == "year"
    assert fields["without"]


def test_words_that_cannot_be_used_are_answered():
    assert "Did you mean 'recruited'?" in told(DEMO, "perforation", "--on", "recruitd", code=1)
    assert "noted as text" in told(PUBLISHED, "perforation", "--on", "operator", code=1)


def test_one_number_is_drawn(tmp_path):
    out = tmp_path / "year.svg"
    assert "Written" in told(DEMO, "perforation", "--on", "year", "-o", str(out))
    drawn = out.read_text(encoding="utf-8")
    assert "INVENTED" in drawn
    assert "Tansy 2014, published in 2014, 13 of 111" in drawn
    assert "are compared here, and not patients" in drawn


def test_what_has_no_line_is_not_drawn(tmp_path):
    out = str(tmp_path / "intent.svg")
    assert "no line to draw" in told(DEMO, "perforation", "--on", "intent", "-o", out, code=1)
    assert not (tmp_path / "intent.svg").exists()


def test_text_goes_to_a_file(tmp_path):
    out = tmp_path / "year.txt"
    told(DEMO, "perforation", "--on", "year", "-o", str(out))
    assert "Over 26 studies" in out.read_text(encoding="utf-8")
