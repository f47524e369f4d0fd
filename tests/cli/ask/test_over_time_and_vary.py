"""``evsyn ask over-time`` and ``evsyn ask vary``, as a user types them."""

import json

import pytest

from tests.cli.ask.typing import DEMO, PUBLISHED, typed


@pytest.mark.parametrize("question", ["over-time", "vary", "lean"])
@pytest.mark.parametrize("review", [DEMO, PUBLISHED])
def test_it_fits_the_terminal_and_says_what_was_asked(question, review):
    told = typed(question, review, "migration")
    assert max(map(len, told.splitlines())) <= 80
    assert "Asked here: " in told
    assert "never replace local protocol" in " ".join(told.split())


@pytest.mark.parametrize("question", ["over-time", "vary", "lean"])
def test_what_the_plan_refuses_is_said_in_a_sentence(question):
    assert "Nothing is pooled here, so " in typed(question, DEMO, "reobstruction")


def test_over_time_says_where_it_began_and_when_it_settled():
    told = " ".join(typed("over-time", DEMO, "perforation").split())
    assert "With the papers up to 2001 (5 studies) the row to read was 8.1%" in told
    assert "with all it is 5.6%. Since 2017 it has stayed within one point of that." in told


def test_vary_says_between_what_values_the_answer_moves():
    told = " ".join(typed("vary", DEMO, "perforation").split())
    assert "lies between 4.9% (at the wanted denominator and window) and 5.7%" in told
    assert "give between 5.6% (Exact binomial-normal model) and 6.9% (Hedges-Olkin" in told


def test_fields_hold_every_answer():
    (pool,) = json.loads(typed("vary", DEMO, "perforation", "--json"))["pools"]
    assert len(pool["sets"]) == 8
    assert all(one["rows"] for one in pool["sets"])
    (pool,) = json.loads(typed("over-time", DEMO, "perforation", "--json"))["pools"]
    assert pool["years"][-1]["k"] == 26


@pytest.mark.parametrize("question", ["over-time", "vary", "lean"])
def test_it_is_drawn_where_the_file_is_a_picture(question, tmp_path):
    told = typed(question, DEMO, "perforation", "-o", str(tmp_path / "a.svg"))
    assert "Written: " in told
    drawn = (tmp_path / "a.svg").read_text(encoding="utf-8")
    assert "INVENTED" in drawn
    assert "5.6 (4.2-7.4)" in drawn


def test_what_cannot_be_drawn_is_said(tmp_path):
    place = str(tmp_path / "a.svg")
    told = typed("lean", DEMO, "reobstruction", "-o", place, code=1)
    assert "nothing to draw" in told
    levels = ("--level", "intent=palliation", "--level", "intent=bridge_to_surgery")
    told = typed("lean", DEMO, "perforation", *levels, "-o", place, code=1)
    assert "A drawing shows one pool." in told
    assert not (tmp_path / "a.svg").exists()
