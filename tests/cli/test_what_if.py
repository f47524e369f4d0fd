"""``evsyn pool`` with a count changed, a study left out, or every count disputed."""

import json
import shutil
from itertools import pairwise
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from evsyn.cli import cli

DEMO = Path(__file__).parent.parent.parent / "studies" / "demo"
CHANGE = "--what-if", "1999-campion.perforation=2/31"


def run(*words: object) -> Result:
    result = CliRunner().invoke(cli, [str(word) for word in words])
    assert result.exception is None or isinstance(result.exception, SystemExit)
    return result


def fields(*words: object) -> dict:
    result = run(*words, "--json")
    assert result.exit_code == 0, result.output
    return json.loads(result.output)


def said(result: Result) -> str:
    return " ".join(result.output.split())


def test_the_mark_stands_first_and_over_every_answer() -> None:
    result = run("pool", DEMO, "perforation", "--by", "intent", *CHANGE)
    lines = result.output.splitlines()
    assert result.output.startswith("WHAT IF: Campion 1999 takes 2 of 31 for perforation.")
    assert "not the review's own answer. INVENTED DATA" in said(result)
    heads = [above for above, line in pairwise(lines) if set(line) == {"-"}]
    titles = [line for line in heads if "As the review stands" not in line]
    assert len(titles) == 4
    assert all(title.startswith("WHAT IF: Perforation, ") for title in titles)
    assert all(len(line) <= 80 for line in lines)


def test_before_is_the_review_and_after_is_the_file_with_that_count(tmp_path: Path) -> None:
    folder = Path(shutil.copytree(DEMO, tmp_path / "demo"))
    file = folder / "1999-campion.yaml"
    text = file.read_text(encoding="utf-8")
    file.write_text(text.replace("events: 0", "events: 2", 1), encoding="utf-8")
    found = fields("pool", DEMO, "perforation", *CHANGE)
    for part, review in (("before", DEMO), ("after", folder)):
        (answer,) = found[part]
        (own, *_) = fields("pool", review, "perforation")["answers"]
        for name in ("sentence", "k", "events", "total", "reading_row", "reading_reason"):
            assert answer[name] == own[name]
        assert answer["rows"]["exact"] == own["rows"]["exact"]
    assert "answers" not in found
    assert found["status"].startswith("WHAT IF: ")


def test_the_changed_count_has_no_place_in_a_paper() -> None:
    found = fields("pool", DEMO, "perforation", *CHANGE)
    (after,) = found["after"]
    (row,) = [one for one in after["studies"] if one["study"] == "1999-campion"]
    words = "what if, not a count of the paper"
    assert [source["file"] for source in row["sources"]] == [words]
    (change,) = found["what_if"]["changes"]
    assert change["source"]["file"] == words
    assert change["in_place_of"]["events"] == 0
    assert change["in_place_of"]["sources"][0]["file"] == "1999-campion.yaml"


def test_a_study_left_out_is_told_and_who_comes_in() -> None:
    result = run("pool", DEMO, "perforation", "--without", "2013-sorrel")
    assert result.output.startswith("WHAT IF: Sorrel 2013 is left out.")
    assert "Nettle 2010 is pooled only then, because it shares patients" in said(result)
    result = run("pool", DEMO, "perforation", "--by", "intent", "--without", "1999-campion")
    assert "The same counts are pooled, so this answer stays." in said(result)


@pytest.mark.parametrize(
    ("words", "answer"),
    [
        ("--what-if nobody.perforation=1/2", "'nobody' is not a study of this review."),
        ("--what-if 1999-champion.perforation=1/2", "Did you mean '1999-campion'?"),
        ("--what-if 1999-campion.perforations=1/2", "Did you mean 'perforation'?"),
        ("--what-if 1999-campion.perforation=5/2", "5 of 2 cannot be a count."),
        ("--what-if 1999-campion.perforation=0/0", "0 of 0 cannot be a count."),
        ("--what-if 1999-campion.perforation=-1/2", "cannot be read. Write the study's name"),
        ("--what-if 1999-campion.migration=1/31", "name the outcome migration as well"),
        ("--what-if 2010-nettle.perforation=1/54", "shares patients with 2013-sorrel"),
        ("--what-if 2015-umbel.perforation=1/9", "which the plan does not accept"),
        (f"{' '.join(CHANGE)} {' '.join(CHANGE)}", "is given two counts. Give it one."),
        (f"{' '.join(CHANGE)} --without 1999-campion", "the study is left out"),
        ("--without 2010-nettle", "'2010-nettle' is not pooled here: shares patients"),
        ("--without nettle", "Did you mean '2010-nettle'?"),
        (
            "--by intent --what-if 2000-dogwood.perforation=1/43",
            "one count does not say how it falls on its parts. Leave out --by intent.",
        ),
    ],
)
def test_what_cannot_be_is_refused_in_words(words: str, answer: str) -> None:
    result = run("pool", DEMO, "perforation", *words.split())
    assert result.exit_code == 1
    assert answer in said(result)


def test_an_outcome_that_is_not_pooled_has_no_answer_to_change() -> None:
    words = "--what-if", "2009-mallow.reobstruction=1/9"
    result = run("pool", DEMO, "reobstruction", *words)
    assert result.exit_code == 1
    assert "the plan does not pool this outcome" in said(result)


def test_a_count_of_the_whole_is_answered_where_no_part_is_asked_for() -> None:
    words = "perforation", "--what-if", "2000-dogwood.perforation=1/43"
    assert run("pool", DEMO, *words).exit_code == 0
    assert run("pool", DEMO, *words, "--by", "device_generation").exit_code == 0


def test_nothing_is_kept_and_pages_are_not_mixed(tmp_path: Path) -> None:
    target = tmp_path / "what-if.txt"
    result = run("pool", DEMO, "perforation", *CHANGE, "-o", target)
    assert result.exit_code == 2
    assert not target.exists()
    assert run("pool", DEMO, "perforation", *CHANGE, "--disputed").exit_code == 2
    assert run("pool", DEMO, "perforation", "--look-up", "--disputed").exit_code == 2


@pytest.fixture
def few(tmp_path: Path) -> Path:
    """The plan of the demo with five of its studies."""
    kept = "review", "1998-bilberry", "1999-campion", "2000-dogwood", "2001-eyebright", "2003-gorse"
    for name in kept:
        shutil.copy(DEMO / f"{name}.yaml", tmp_path)
    return tmp_path


def test_the_text_and_the_fields_of_disputed_counts_tell_the_same(few: Path) -> None:
    words = "pool", few, "perforation", "--by", "era"
    result = run(*words, "--disputed")
    assert result.output.startswith("INVENTED DATA")
    assert all(len(line) <= 80 for line in result.output.splitlines())
    pool, *levels = fields(*words, "--disputed")["disputed"]
    (own, *_) = fields(*words)["answers"]
    assert pool["key"] == own["key"] == "perforation/overall"
    assert len(levels) == 3
    assert pool["target"] == 0.06
    assert pool["sentence"] == own["sentence"]
    assert len(pool["studies"]) == pool["k"] == own["k"]
    for study in pool["studies"]:
        (unchanged,) = [one for one in study["if_counted"] if one["change"] == 0]
        assert unchanged["estimate"] == pool["estimate"]
        assert unchanged["events"] == study["events"]
        estimate = study["if_left_out"]["estimate"]
        assert study["if_left_out"]["shift"] == pytest.approx(estimate - pool["estimate"])
        changing = [one["change"] for one in study["if_counted"] if one["says_otherwise"]]
        assert study["fewest_events"] == min(map(abs, changing), default=None)
    by_leaving = sum(bool(one["if_left_out"]["says_otherwise"]) for one in pool["studies"])
    words = f"and for {by_leaving or 'none'} by leaving it out."
    assert words in said(result)
    assert "Nothing is pooled here, so no count can change an answer." in said(result)
