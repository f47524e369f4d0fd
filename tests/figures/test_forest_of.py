"""From a review on disk to what its forest plot says."""

import re
from dataclasses import replace
from pathlib import Path

import pytest
from click.testing import CliRunner

from evsyn.cli import cli
from evsyn.extraction.load import CheckedUnit, read_review, read_unit
from evsyn.figures.forest import Invented, forest_layout
from evsyn.figures.formats import A4, SLIDE, web
from evsyn.reporting.forest import forest_of
from evsyn.terms import Audience
from tests.figures.geometry import off_the_page, overlapping_words, words_of

ROOT = Path(__file__).parent.parent.parent
DEMO = read_review(ROOT / "studies" / "demo")
PUBLISHED = read_review(ROOT / "studies" / "published")
INSIDE = Audience.INSIDE
UNIT = read_unit(ROOT / "studies" / "demo" / "unit-hollowmere.yaml", DEMO.plan)


def without_papers(checked: CheckedUnit) -> CheckedUnit:
    return replace(checked, unit=checked.unit.model_copy(update={"own_studies": []}))


def real(checked: CheckedUnit) -> CheckedUnit:
    return replace(checked, unit=checked.unit.model_copy(update={"invented": False}))


def test_the_whole_unit_is_never_set_against_all_studies() -> None:
    said = forest_of(DEMO, "perforation", "intent", UNIT, audience=INSIDE)
    rows = {band.title: band.unit for band in said.bands}
    assert rows["Palliation"] is not None
    assert (rows["Palliation"].events, rows["Palliation"].total) == (3, 27)
    assert rows["Bridge to surgery"] is not None
    assert rows["All studies"] is None
    for text in (said.caption, said.short_caption):
        assert "Not drawn: the unit as a whole (its case mix may differ" in text
    alone = forest_of(DEMO, "perforation", None, UNIT, audience=INSIDE)
    assert alone.bands[0].unit is None
    assert "Not drawn: the unit as a whole" in alone.caption


def test_a_unit_row_is_told_apart_from_a_range_in_words() -> None:
    said = forest_of(DEMO, "perforation", "intent", UNIT, audience=INSIDE)
    assert "The unit's row is the share it saw" in said.caption
    assert "range is of true rates" in said.caption
    assert "Unit rows: share seen" in said.short_caption
    assert "unit's row" not in forest_of(DEMO, "perforation", "intent").caption


def test_a_count_on_another_denominator_is_not_framed() -> None:
    unit = UNIT.unit.model_copy(deep=True)
    for group in unit.groups:
        group.outcomes["perforation"] = group.outcomes["perforation"].model_copy(
            update={"of": "considered"}
        )
    said = forest_of(DEMO, "perforation", "intent", replace(UNIT, unit=unit), audience=INSIDE)
    assert all(band.unit is None for band in said.bands)
    names = "palliation, bridge to surgery, the unit as a whole"
    assert f"Not drawn: {names} (its denominator is not theirs)." in said.caption


def test_what_is_invented_is_told_apart() -> None:
    unit = without_papers(UNIT)
    by = ("perforation", "intent")
    assert forest_of(DEMO, *by, UNIT, audience=INSIDE).invented is Invented.ALL
    assert forest_of(DEMO, *by).invented is Invented.ALL
    assert forest_of(DEMO, *by, real(UNIT), audience=INSIDE).invented is Invented.STUDIES
    assert forest_of(PUBLISHED, *by, unit, audience=INSIDE).invented is Invented.UNIT
    assert forest_of(PUBLISHED, *by, real(unit), audience=INSIDE).invented is Invented.NOTHING
    assert forest_of(PUBLISHED, *by).invented is Invented.NOTHING
    # The whole unit is not drawn, so that nothing on this figure is invented.
    assert forest_of(PUBLISHED, "perforation", None, unit).invented is Invented.NOTHING


@pytest.mark.parametrize("sheet", [A4, SLIDE])
def test_wanted_and_found_stand_on_every_sheet_and_in_the_description(sheet) -> None:
    layout = forest_layout(forest_of(PUBLISHED, "perforation", "intent"), sheet)
    for page in layout.pages:
        words = " ".join(text.words for group in page.of("title") for text in group.texts)
        found = re.search(
            r"Found: (\d+) of (\d+) counts within 30 days \((\d+) not stated\)", words
        )
        assert found
        assert int(found[1]) + int(found[3]) <= int(found[2])
        assert found[0] in layout.description
        assert "over patients in whom a stent was tried" in words


def test_the_difference_between_levels_is_told_on_paper_and_on_a_slide() -> None:
    said = forest_of(DEMO, "perforation", "intent")
    assert "Odds compared" in said.caption
    assert re.search(r"Difference: P 0\.\d\d.*; compared between studies", said.short_caption)
    era = forest_of(PUBLISHED, "perforation", "era")
    assert "Difference: P " in era.short_caption
    untold = forest_of(PUBLISHED, "perforation", "device_generation")
    assert "cannot be compared" in untold.short_caption
    assert "Difference: P " not in untold.short_caption
    assert "Difference" not in forest_of(DEMO, "perforation", None).short_caption


def test_a_band_is_said_to_hold_those_that_also_count() -> None:
    said = forest_of(DEMO, "perforation", "intent")
    assert "; a band holds those of them that also count the outcome." in said.caption
    assert "bands: those with a count." in said.short_caption


@pytest.mark.parametrize(("review", "unit"), [(DEMO, UNIT), (PUBLISHED, without_papers(UNIT))])
def test_all_pools_stand_on_one_slide_with_the_unit(review, unit) -> None:
    (page,) = forest_layout(
        forest_of(review, "perforation", "intent", unit, audience=INSIDE), SLIDE
    ).pages
    assert len(page.of("summary")) == 4
    assert len(page.of("unit")) == 2
    assert min(text.size for group in page.groups for text in group.texts) >= 14


def test_all_studies_stand_on_one_page_of_a4_with_the_unit() -> None:
    said = forest_of(PUBLISHED, "perforation", "intent", without_papers(UNIT), audience=INSIDE)
    assert len(forest_layout(said, A4).pages) == 1


@pytest.mark.parametrize("outcome", ["perforation", "technical_success"])
def test_nothing_overlaps_under_the_mark_of_the_units_rows(outcome) -> None:
    said = forest_of(DEMO, outcome, "intent", UNIT, audience=INSIDE)
    bare = forest_of(DEMO, outcome, "intent")
    assert not bare.mark
    for fmt in (A4, SLIDE, web(320), web(900)):
        for page in forest_layout(said, fmt).pages:
            marked = " ".join(words_of(page, "audience"))
            assert marked == (said.short_mark if fmt is SLIDE else said.mark)
            assert not overlapping_words(page)
            assert not off_the_page(page)
        assert not any(page.of("audience") for page in forest_layout(bare, fmt).pages)


def run(*words: object) -> tuple[int, str]:
    result = CliRunner().invoke(cli, ["forest", str(ROOT / "studies" / "demo"), *map(str, words)])
    assert result.exception is None or isinstance(result.exception, SystemExit)
    return result.exit_code, " ".join(result.output.split())


def test_two_strata_are_refused_in_a_sentence(tmp_path: Path) -> None:
    code, said = run("perforation", "--by", "intent", "--by", "era", "-o", tmp_path / "f.svg")
    assert code == 1
    assert said == "A forest plot shows one stratum: give --by once, and draw a figure for each."
    assert not list(tmp_path.iterdir())


def test_a_missing_folder_is_made(tmp_path: Path) -> None:
    code, _ = run("perforation", "-o", tmp_path / "new" / "one" / "f.svg")
    assert code == 0
    assert [path.name for path in (tmp_path / "new" / "one").iterdir()] == ["f.svg"]


def test_a_folder_is_not_written_over(tmp_path: Path) -> None:
    (tmp_path / "f.svg").mkdir()
    code, said = run("perforation", "-o", tmp_path / "f.svg")
    assert code == 1
    assert said.startswith("The figure was not written: ")
    assert said.endswith("f.svg is a folder; name a file in it.")


def test_a_file_is_no_folder(tmp_path: Path) -> None:
    (tmp_path / "notes").write_text("", encoding="utf-8")
    code, said = run("perforation", "-o", tmp_path / "notes" / "f.svg")
    assert code == 1
    assert said.endswith("notes is not a folder.")


def test_a_refused_write_names_the_file_and_no_draft(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refused(self: Path, *_args: object, **_more: object) -> None:
        raise PermissionError(13, "Permission denied", str(self))

    monkeypatch.setattr(Path, "open", refused)
    from evsyn.figures.write import write_figure

    layout = forest_layout(forest_of(DEMO, "perforation", None), A4)
    with pytest.raises(PermissionError) as caught:
        write_figure(layout, tmp_path / "f.svg")
    assert caught.value.filename == str(tmp_path / "f.svg")
    assert ".part" not in str(caught.value)
