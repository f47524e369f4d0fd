"""The verbs that draw a unit's own figures."""

import re
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from evsyn.cli import cli

ROOT = Path(__file__).parent.parent.parent
DEMO = ROOT / "studies" / "demo"
UNIT = DEMO / "unit-hollowmere.yaml"
STEM = "hollowmere-2022-04-to-2026-03-inside"
BEFORE = DEMO / "hollowmere-2018-to-2022.yaml"
AGAINST = ("--against", DEMO)


def run(*words: object) -> Result:
    result = CliRunner().invoke(cli, [str(word) for word in words])
    assert result.exception is None or isinstance(result.exception, SystemExit)
    return result


def said(result: Result) -> str:
    return " ".join(result.output.split())


def test_a_strip_is_drawn_inside(tmp_path: Path) -> None:
    target = tmp_path / "s.svg"
    words = ("strip", UNIT, *AGAINST, "--outcome", "perforation", "--by", "intent")
    assert run(*words, "--for", "inside", "-o", target).exit_code == 0
    drawn = target.read_text(encoding="utf-8")
    assert "ours: 3 of 27" in drawn
    assert "INVENTED" in drawn


def test_a_strip_is_not_drawn_outside_without_a_release(tmp_path: Path) -> None:
    result = run("strip", UNIT, *AGAINST, "--for", "outside", "-o", tmp_path / "s.svg")
    assert result.exit_code == 1
    assert "how many cases stand at each level" in said(result)
    assert list(tmp_path.iterdir()) == []


def test_a_funnel_around_the_target_and_one_around_the_range(tmp_path: Path) -> None:
    words = ("funnel", UNIT, *AGAINST, "--outcome", "perforation", "--for", "inside")
    target, around = tmp_path / "t.svg", tmp_path / "r.svg"
    assert run(*words, "-o", target).exit_code == 0
    assert "alarm" in target.read_text(encoding="utf-8")
    assert run(*words, "--level", "intent=palliation", "-o", around).exit_code == 0
    drawn = around.read_text(encoding="utf-8")
    assert "alarm" not in drawn
    for figure in (target.read_text(encoding="utf-8"), drawn):
        words_alone = " ".join(re.sub("<[^>]+>", " ", figure).split())
        assert "not the funnel plot of small studies" in words_alone


def test_a_slide_holds_the_whole_and_the_levels_of_a_stratum(tmp_path: Path) -> None:
    words = ("strip", UNIT, *AGAINST, "--by", "intent", "--sheet", "slide", "--for", "inside")
    for outcome in ("perforation", "technical_success"):
        target = tmp_path / f"{outcome}.svg"
        assert run(*words, "--outcome", outcome, "-o", target).exit_code == 0
        drawn = target.read_text(encoding="utf-8")
        places = [drawn.index(f">{name}<") for name in ("All cases", "Palliation")]
        assert places == sorted(places)
        assert ">Bridge to surgery<" in drawn
        assert "twice the risk" in " ".join(re.sub("<[^>]+>", " ", drawn).split())
    assert len(list(tmp_path.iterdir())) == 2


def test_two_periods_stand_together(tmp_path: Path) -> None:
    target = tmp_path / "p.svg"
    words = ("funnel", UNIT, BEFORE, *AGAINST, "--outcome", "perforation")
    assert run(*words, "--for", "inside", "-o", target).exit_code == 0
    drawn = target.read_text(encoding="utf-8")
    assert "2018-04 to 2022-03" in drawn
    assert "2022-04 to 2026-03" in drawn
    assert run(*words, "--for", "outside", "-o", target).exit_code == 1


def test_outside_a_funnel_brackets_what_may_not_be_told(tmp_path: Path) -> None:
    target = tmp_path / "o.svg"
    words = ("funnel", UNIT, *AGAINST, "--outcome", "perforation", "--for", "outside")
    assert run(*words, "-o", target).exit_code == 0
    drawn = target.read_text(encoding="utf-8")
    assert "between 1 and 7 of 41" in drawn
    assert "Hidden by rule" in drawn
    assert "alert from" not in drawn
    for word in ("3 of 41", "2022-04", "unit-hollowmere.yaml"):
        assert word not in drawn


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("--outcome", "perforations"), "Did you mean 'perforation'?"),
        (("--outcome", "technical_success"), "names no fixed target"),
        (("--outcome", "perforation", "--level", "intention=palliation"), "Did you mean 'intent'?"),
        (("--outcome", "perforation", "--level", "intent=paliation"), "Did you mean 'palliation'?"),
        (("--outcome", "perforation", "--level", "intent"), "Known: palliation"),
    ],
)
def test_slips_are_told_in_words(tmp_path: Path, words: tuple[str, ...], told: str) -> None:
    result = run("funnel", UNIT, *AGAINST, *words, "--for", "inside", "-o", tmp_path / "f.svg")
    assert result.exit_code == 1
    assert told in said(result)


def test_a_folder_holds_text_fields_and_figures(tmp_path: Path) -> None:
    folder = tmp_path / "out"
    words = ("audit", UNIT, *AGAINST, "--for", "inside", "--before", BEFORE, "--into", folder)
    assert run(*words).exit_code == 0
    names = sorted(path.name for path in folder.iterdir())
    assert names == [
        f"{STEM}-range-perforation.svg",
        f"{STEM}-strip-perforation.svg",
        f"{STEM}-strip-stoma_avoidance.svg",
        f"{STEM}-strip-technical_success.svg",
        f"{STEM}-target-perforation.svg",
        f"{STEM}.json",
        f"{STEM}.txt",
        "manifest.json",
    ]


def test_a_folder_for_outside_holds_less(tmp_path: Path) -> None:
    folder = tmp_path / "out"
    assert run("audit", UNIT, *AGAINST, "--for", "outside", "--into", folder).exit_code == 0
    assert sorted(path.name for path in folder.iterdir()) == [
        "hollowmere-outside-target-perforation.svg",
        "hollowmere-outside.json",
        "hollowmere-outside.txt",
        "manifest.json",
    ]


def test_however_it_is_typed_a_unit_file_is_not_named_outside(tmp_path: Path) -> None:
    # The name is the unit's own, and may hold a date or a count.
    typed = f"{UNIT.parent}/../{UNIT.parent.name}/{UNIT.name}"
    folder = tmp_path / "out"
    result = run("audit", typed, *AGAINST, "--for=outside", f"--into={folder}")
    assert result.exit_code == 0
    manifest = (folder / "manifest.json").read_text(encoding="utf-8")
    assert UNIT.name not in manifest
    assert str(tmp_path) not in manifest
    assert "evsyn audit UNIT --against" in manifest
