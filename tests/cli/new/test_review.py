"""``evsyn new review``: a plan that passes the checks, with the schemas made from it."""

import pytest
from jsonschema import Draft202012Validator

from evsyn.extraction.load import read_review
from evsyn.extraction.schema.folder import schema_notes
from evsyn.extraction.schema.schemas import schemas
from evsyn.extraction.yaml_text import parse_bytes
from tests.cli.new.drive import checked, run, said

LEAK = "leak=Leak; leak; leaks; fewer; attempted, completed; 30_days, follow_up"
INTENT = "intent=Intent: what it was meant for; palliation; bridge=bridge to surgery"
WHOLE = (
    "--title", "An invented review", "--question", "How often does it leak?", "--invented",
    "--fixed-on", "2026-01-02", "--outcome", LEAK, "--stratum", INTENT,
)  # fmt: skip
TYPED = """\

An invented review
How often does it leak?
2026-01-02

n
tried=patients in whom it was tried
placed patients
placed=patients in whom it was placed

n
30_days=within 30 days; 30
stay=in hospital; until discharge
ever=at any time

tried, placed
Leak


leaks
fewer
a leak on imaging
2, 1
30_days, evre
30_days, ever

n
kind=Kind: what was placed; bare; covered=covered stents
era=Era; 2010

"""


def test_options_alone_write_plan_and_schemas(tmp_path):
    folder = tmp_path / "Größe und Leck"
    result = run("review", folder, *WHOLE)
    assert result.exit_code == 0, result.output
    read = read_review(folder)
    assert not read.faults
    plan = read.plan
    assert plan.outcomes["leak"].denominators == ["attempted", "completed"]
    assert plan.outcomes["leak"].windows == ["30_days", "follow_up"]
    assert plan.invented
    assert set(plan.strata) == {"intent"}
    assert list(schema_notes(folder, plan)) == []
    assert {path.name for path in (folder / "schema").iterdir()} == {
        "review.json", "study.json", "unit.json", "guidelines.json", "claims.json",
    }  # fmt: skip


def test_a_new_plan_passes_the_checks_before_it_has_a_study(tmp_path):
    run("review", tmp_path / "stents", *WHOLE)
    result = checked(tmp_path / "stents")
    assert result.exit_code == 0
    assert "0 faults, 0 open doubts" in said(result)
    assert "a plan and no study yet" in said(result)


def test_the_file_is_commented_and_fits_its_schema(tmp_path):
    run("review", tmp_path / "stents", *WHOLE)
    raw = (tmp_path / "stents" / "review.yaml").read_bytes()
    assert raw.startswith(b"# yaml-language-server: $schema=schema/review.json\n")
    assert raw.count(b"\n# ") > 8
    assert not list(Draft202012Validator(schemas()["review"]).iter_errors(parse_bytes(raw).root))


def test_asking_lets_everything_offered_be_changed(tmp_path):
    result = run("review", tmp_path / "leaks", "--invented", answers=TYPED)
    assert result.exit_code == 0, result.output
    assert "'placed patients' has not the form NAME=WORDS: a short name" in result.output
    assert "Did you mean 'ever'?" in result.output
    read = read_review(tmp_path / "leaks")
    assert not read.faults
    plan = read.plan
    assert plan.review == "leaks"
    assert list(plan.denominators) == ["tried", "placed"]
    assert plan.flow == ["tried", "placed"]
    assert (plan.windows["30_days"].days, plan.windows["stay"].ends) == (30, "discharge")
    assert plan.windows["ever"].is_open
    assert plan.outcomes["leak"].definition == "a leak on imaging"
    assert plan.outcomes["leak"].denominators == ["placed", "tried"]
    assert plan.strata["kind"].levels == {"bare": "bare", "covered": "covered stents"}
    assert plan.strata["kind"].asks == "what was placed"
    assert plan.strata["era"].cut_year == 2010


def test_a_study_can_be_added_to_it(tmp_path):
    folder = tmp_path / "stents"
    run("review", folder, *WHOLE)
    result = run(
        "study", folder, "--name", "2012-hazel", "--by", "XY", "--from", "abstract",
        "--arm", "all=40", "--count", "leak=3/40 attempted 30_days",
    )  # fmt: skip
    assert result.exit_code == 0, result.output
    assert checked(folder).exit_code == 0
    assert read_review(folder).studies[0].arms[0].strata["intent"] == "not_stated"


def test_missing_answers_stand_in_one_list(tmp_path):
    result = run("review", tmp_path / "stents")
    assert result.exit_code == 1
    for option in ("--title", "--question", "--outcome"):
        assert f"{option} is missing" in said(result)
    assert not (tmp_path / "stents").exists()


@pytest.mark.parametrize(
    ("option", "value", "why"),
    [
        ("--outcome", LEAK.replace("completed;", "compelted;"), "Did you mean 'completed'?"),
        ("--outcome", LEAK.replace("fewer", "less"), "'less' is none of them"),
        ("--outcome", "leak=Leak", "has not the form"),
        ("--window", "30_days=within 30 days; a month", "'a month' is not a whole number"),
        ("--stratum", "intent=Intent", "'intent' has no levels"),
        ("--denominator", "all patients=everyone", "a name has letters"),
        ("--denominator", "as_printed=whoever", "has a fixed meaning"),
    ],
)
def test_what_cannot_be_right_is_told_and_nothing_is_written(option, value, why, tmp_path):
    more = ("--denominator", "attempted=tried", "--denominator", "completed=had it")
    windows = ("--window", "30_days=within 30 days; 30", "--window", "follow_up=at any time")
    result = run("review", tmp_path / "stents", *WHOLE, *more, *windows, option, value)
    assert result.exit_code == 1
    assert why in said(result)
    assert not (tmp_path / "stents").exists()


def test_a_plan_that_is_there_stays_as_it_is(review):
    before = (review / "review.yaml").read_bytes()
    result = run("review", review, *WHOLE)
    assert result.exit_code == 1
    assert "review.yaml is there already" in said(result)
    assert (review / "review.yaml").read_bytes() == before


def test_leaving_half_way_keeps_the_answers_and_writes_no_plan(tmp_path):
    folder = tmp_path / "leaks"
    first, rest = TYPED.split("2026-01-02\n")
    result = run("review", folder, "--invented", answers=f"{first}later\n")
    assert result.exit_code == 0
    assert "3 answers are kept" in said(result)
    assert [path.name for path in folder.iterdir()] == [".unfinished-plan.json"]
    result = run("review", folder, "--invented", answers=f"2026-01-02\n{rest}")
    assert result.exit_code == 0, result.output
    assert "Taken up again: 3 kept answers." in result.output
    assert f"evsyn add {folder}" in said(result)
    assert read_review(folder).plan.outcomes["leak"].events == "leaks"
    assert not (folder / ".unfinished-plan.json").exists()


def test_back_goes_to_the_question_before(tmp_path):
    typed = TYPED.replace("Leak\n", "Leek\nback\nLeak\n")
    result = run("review", tmp_path / "leaks", "--invented", answers=typed)
    assert result.exit_code == 0, result.output
    assert read_review(tmp_path / "leaks").plan.outcomes["leak"].label == "Leak"


def test_no_is_no_outcome_and_ends_the_list(tmp_path):
    typed = TYPED.replace("Leak\n", "n\nLeak\n").replace("30_days, ever\n\n", "30_days, ever\nn\n")
    result = run("review", tmp_path / "leaks", "--invented", answers=typed)
    assert result.exit_code == 0, result.output
    assert "Write its name, as Perforation." in result.output
    assert list(read_review(tmp_path / "leaks").plan.outcomes) == ["leak"]


def test_it_asks_whether_the_review_is_made_up_and_offers_nothing_of_one_trade(tmp_path):
    typed = TYPED.replace("leak?\n", "leak?\ny\n").replace("covered stents", "covered")
    result = run("review", tmp_path / "leaks", answers=typed)
    assert result.exit_code == 0, result.output
    assert read_review(tmp_path / "leaks").plan.invented
    assert "stent" not in result.output
