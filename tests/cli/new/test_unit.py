"""``evsyn new unit``: a unit's counts in the words of a review. All figures are invented."""

import pytest
from jsonschema import Draft202012Validator

from evsyn.extraction.load import read_review, read_unit
from evsyn.extraction.schema.schemas import schemas
from evsyn.extraction.yaml_text import parse_bytes
from tests.cli.new.drive import checked, run, said

SOUND = (
    "--label", "Fern House", "--period", "2022-04 to 2025-03", "--frozen-on", "2025-06-30",
    "--not-complete", "--left-out", "2=notes not found", "--follow-up", "at least 90 days",
    "--expected", "22=devices issued", "--flow", "attempted=20", "--flow", "placed=19",
    "--group", "palliation=12", "--group", "bridge=8", "--level", "bridge.intent=bridge",
    "--level", "palliation.intent=palliation",
    "--count", "palliation.perforation=1/12 attempted 30_days unknown 2",
    "--count", "bridge.perforation=0/8 attempted 30_days", "--invented",
)  # fmt: skip
TYPED = """\
Fern House
fern
2022-04 to 2025-03
2025-06-30
n
2=notes not found
at least 90 days
patient
22=devices issued
12
13
11
all
12
palliation
perforation
1/13
1/12
2
attempted
30_days

n
"""


def test_options_alone_write_a_whole_file(review):
    result = run("unit", review, *SOUND)
    assert result.exit_code == 0, result.output
    path = review / "unit-fern-house.yaml"
    unit = read_unit(path, read_review(review).plan).unit
    assert (unit.unit, unit.label, unit.invented) == ("fern-house", "Fern House", True)
    assert (unit.complete, unit.left_out[0].count) == (False, 2)
    assert unit.left_out[0].why == "notes not found"
    assert (unit.expected_cases.count, unit.flow) == (22, {"attempted": 20, "placed": 19})
    first, second = unit.groups
    assert (first.patients, first.strata) == (12, {"intent": "palliation"})
    assert first.outcomes["perforation"].unknown == 2
    assert second.outcomes["perforation"].total == 8
    assert checked(path, "--against", review).exit_code == 0


def test_a_wrong_yes_or_no_is_told_plainly_and_back_goes_back(review):
    typed = TYPED.replace("\nn\n2=notes", "\nperhaps\ny\nback\nn\n2=notes", 1)
    result = run("unit", review, "--invented", answers=typed)
    assert result.exit_code == 0, result.output
    assert "Write y or n." in result.output
    assert "invalid input" not in result.output
    unit = read_unit(review / "unit-fern.yaml", read_review(review).plan).unit
    assert (unit.complete, unit.left_out[0].count) == (False, 2)
    assert unit.groups[0].outcomes["perforation"].unknown == 2


def test_the_file_is_commented_and_fits_its_schema(review):
    run("unit", review, *SOUND)
    raw = (review / "unit-fern-house.yaml").read_bytes()
    assert raw.startswith(b"# yaml-language-server: $schema=schema/unit.json\n")
    assert b"as_printed" not in raw
    assert b"#   attempted: patients attempted\n" in raw
    schema = schemas(read_review(review).plan)["unit"]
    assert not list(Draft202012Validator(schema).iter_errors(parse_bytes(raw).root))


def test_elsewhere_it_still_finds_its_schema(review, tmp_path):
    path = tmp_path / "figures" / "fern.yaml"
    path.parent.mkdir()
    assert run("unit", review, *SOUND, "-o", path).exit_code == 0
    first = path.read_text(encoding="utf-8").splitlines()[0]
    place = first.partition("$schema=")[2]
    assert (path.parent / place).resolve() == (review / "schema" / "unit.json").resolve()


def test_asking_gives_the_same_and_asks_again_what_cannot_be_right(review):
    result = run("unit", review, "--invented", answers=TYPED)
    assert result.exit_code == 0, result.output
    assert "13 is not possible here: at least 0, at most 12." in result.output
    assert "The group has 12 patients, and the total is 13." in result.output
    unit = read_unit(review / "unit-fern.yaml", read_review(review).plan).unit
    assert unit.flow == {"attempted": 12, "placed": 11}
    assert unit.groups[0].outcomes["perforation"].unknown == 2
    assert unit.left_out[0].count == 2


def test_missing_answers_stand_in_one_list(review):
    result = run("unit", review)
    assert result.exit_code == 1
    for option in ("--label", "--name", "--period", "--follow-up", "--expected", "--group"):
        assert f"{option} is missing" in said(result)
    assert "--complete or --not-complete is missing" in said(result)


@pytest.mark.parametrize(
    ("option", "value", "why"),
    [
        ("--count", "bridge.perforation=0/9 attempted 30_days", "a total of 9 in a group of 8"),
        ("--count", "bridge.perforation=0/8 as_printed", "'as_printed' is none of them"),
        ("--count", "bridge.perforation=0/8 attempted at p. 2", "'at' has no place"),
        ("--flow", "crossed=19", "'crossed' is none of them"),
        ("--period", "2025-03 to 2022-04", "2022-04 is before 2025-03"),
        ("--frozen-on", "2024-01-01", "before the period ends"),
        ("--expected", "devices issued", "has not the form NAME=WORDS"),
        ("--counted-by", "nurse", "'nurse' is none of them"),
    ],
)
def test_what_cannot_be_right_is_told_and_nothing_is_written(option, value, why, review):
    result = run("unit", review, *SOUND, option, value)
    assert result.exit_code == 1
    assert why in said(result)
    assert not (review / "unit-fern-house.yaml").exists()


def test_a_person_may_keep_a_faulty_file_and_does_not_by_default(review):
    words = (*SOUND, "--flow", "attempted=30", "--name", "fern")
    refused = run("unit", review, *words, answers="\n" * 5)
    assert refused.exit_code == 1
    assert "The checks find what cannot be" in refused.output
    assert not (review / "unit-fern.yaml").exists()
    kept = run("unit", review, *words, answers="\ny\n")
    assert kept.exit_code == 0, kept.output
    assert (review / "unit-fern.yaml").exists()


def test_a_file_that_is_there_stays_as_it_is(review):
    before = (review / "unit-glade.yaml").read_bytes()
    result = run("unit", review, *SOUND, "--name", "glade")
    assert result.exit_code == 1
    assert "is there already" in said(result)
    assert (review / "unit-glade.yaml").read_bytes() == before
