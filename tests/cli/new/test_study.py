"""``evsyn new study``: an extract that is whole, commented, and passes the checks as written.

Papers, authors and counts are invented.
"""

import subprocess
import sys

import pytest
from jsonschema import Draft202012Validator

from evsyn.extraction.load import read_review
from evsyn.extraction.schema.schemas import schemas
from evsyn.extraction.yaml_text import parse_bytes
from tests.cli.new.drive import checked, run, said

WHOLE = (
    "--authors", "Hazel A, Larch B", "--title", "A third invented series", "--year", "2012",
    "--journal", "Journal of Invention", "--by", "XY", "--on", "2026-01-09", "--from", "abstract",
    "--centres", "Hazel House; Elm Infirmary", "--country", "NO",
    "--recruited", "2005-02 to 2010",
)  # fmt: skip
COUNTED = (
    "--arm", "all=40", "--level", "intent=bridge", "--fact", "operator=surgeon",
    "--fact", "all.length=4.50",
    "--count", "perforation=3/40 attempted 30_days at Table 1, p. 2 printed 7.5%",
)  # fmt: skip
TYPED = """\
Hazel A, Larch B
A third invented series

2012



2012-hazel
prospective series
Hazel House


XY
2026-01-09
abstract
1
all
forty
40
y
bridge


perforation
50/40
3/40
1
30_days
Table 1, p. 2
7.5%

n
"""


def read_back(folder, name="2012-hazel"):
    review = read_review(folder)
    assert not review.faults
    return review.study(name)


def test_options_alone_write_a_whole_extract(review):
    result = run("study", review, *WHOLE, *COUNTED)
    assert result.exit_code == 0, result.output
    study = read_back(review)
    assert study.invented
    assert study.setting.centres == ["Hazel House", "Elm Infirmary"]
    assert study.setting.country == "NO"
    assert (study.setting.recruited.from_, study.setting.recruited.to) == ("2005-02", "2010")
    assert study.characteristics == {"operator": "surgeon"}
    (arm,) = study.arms
    assert (arm.patients, arm.covers, arm.strata) == (40, "whole_study", {"intent": "bridge"})
    assert arm.characteristics == {"length": "4.50"}
    count = arm.outcomes["perforation"]
    assert (count.events, count.total, count.of, count.window) == (3, 40, "attempted", "30_days")
    assert (count.at, count.printed) == ("Table 1, p. 2", "7.5%")
    assert checked(review).exit_code == 0


def test_the_file_is_commented_and_fits_its_schema(review):
    run("study", review, *WHOLE, *COUNTED)
    raw = (review / "2012-hazel.yaml").read_bytes()
    text = raw.decode("utf-8")
    assert text.startswith("# yaml-language-server: $schema=schema/study.json\n")
    assert "#   attempted: patients attempted\n" in text
    assert "#   30_days: within 30 days\n" in text
    assert "#   bridge: bridge to surgery\n" in text
    schema = schemas(read_review(review).plan)["study"]
    assert not list(Draft202012Validator(schema).iter_errors(parse_bytes(raw).root))
    assert max(map(len, text.splitlines())) <= 100


def test_asking_gives_the_same_and_asks_again_what_cannot_be_right(review):
    result = run("study", review, answers=TYPED)
    assert result.exit_code == 0, result.output
    assert "'forty' is not a whole number." in result.output
    assert "50 of 40 cannot be." in result.output
    assert "1 attempted   patients attempted" in result.output
    assert "1 30_days     within 30 days" in result.output
    arm = read_back(review).arms[0]
    assert arm.patients == 40
    assert arm.outcomes["perforation"].of == "attempted"
    assert arm.strata == {"intent": "bridge"}


def test_what_an_option_gives_is_not_asked(review):
    result = run("study", review, *WHOLE, *COUNTED, "--name", "2012-elm", answers="\n" * 6)
    assert result.exit_code == 0, result.output
    assert "Your initials" not in result.output
    assert read_back(review, "2012-elm").extracted.by == "XY"


def test_missing_answers_stand_in_one_list(review):
    before = sorted(path.name for path in review.iterdir())
    result = run("study", review, "--authors", "Hazel A")
    assert result.exit_code == 1
    for option in ("--name", "--by", "--from", "--arm"):
        assert f"{option} is missing" in result.output
    assert "--on" not in result.output
    assert result.output.startswith("Nothing was written.")
    assert sorted(path.name for path in review.iterdir()) == before


@pytest.mark.parametrize(
    ("option", "value", "why"),
    [
        ("--count", "perforation=3/40 atempted 30_days", "Did you mean 'attempted'?"),
        ("--count", "perforatoin=3/40 attempted", "Did you mean 'perforation'?"),
        ("--count", "perforation=41/40 attempted", "41 of 40 cannot be"),
        ("--count", "perforation=3/40 attempted 30 days", "has not the form"),
        ("--count", "perforation=3/40 attempted unknown 1", "'unknown' has no place"),
        ("--count", "none.perforation=3/40 attempted", "--count: 'none' is none of them"),
        ("--level", "intent=bridges", "Did you mean 'bridge'?"),
        ("--level", "era=before_2005", "'era' is none of them"),
        ("--on", "9.1.2026", "'9.1.2026' can be read in two ways"),
        ("--recruited", "2010 to 2005", "2005 is before 2010"),
        ("--year", "20012", "20012 is not possible here"),
        ("--fact", "operator=nurse", "'nurse' is none of them"),
        ("--fact", "opera=surgeon", "'opera' is none of them"),
        ("--fact", "left.site=rectum", "--fact: 'left' is none of them"),
        ("--whole", "left", "--whole: 'left' is none of them"),
        ("--treatment", "left.stent", "--treatment: 'left' is none of them"),
        ("--from", "all", "'all' is none of them"),
        ("--arm", "left half=20", "a name has letters"),
        ("--name", "2001-reed", "2001-reed.yaml is there already"),
    ],
)
def test_an_answer_that_cannot_be_right_is_told_and_nothing_is_written(option, value, why, review):
    result = run("study", review, *WHOLE, *COUNTED, option, value)
    assert result.exit_code == 1
    assert why in said(result)
    assert not (review / "2012-hazel.yaml").exists()


def test_an_invented_paper_is_not_written_into_a_real_review(review):
    for path in review.glob("*.yaml"):
        path.write_text(path.read_text(encoding="utf-8").replace("invented: true\n", ""), "utf-8")
    result = run("study", review, *WHOLE, *COUNTED, "--invented")
    assert result.exit_code == 1
    assert "the study is invented and the review is real" in said(result)
    assert not (review / "2012-hazel.yaml").exists()
    assert run("study", review, *WHOLE, *COUNTED).exit_code == 0
    assert not read_back(review).invented


def test_a_file_that_is_there_stays_as_it_is(review):
    before = (review / "2001-reed.yaml").read_bytes()
    result = run("study", review, *WHOLE, *COUNTED, "--name", "2001-reed")
    assert result.exit_code == 1
    assert (review / "2001-reed.yaml").read_bytes() == before


def test_leaving_half_way_writes_nothing(review):
    before = sorted(path.name for path in review.rglob("*"))
    result = run("study", review, answers="\n".join(TYPED.splitlines()[:14]) + "\n")
    assert result.exit_code == 1
    assert "Aborted" in result.output
    assert sorted(path.name for path in review.rglob("*")) == before


def test_two_groups_each_with_its_own_counts(review):
    result = run(
        "study", review, *WHOLE, "--arm", "left=20", "--arm", "right=30",
        "--level", "left.intent=bridge", "--level", "right.intent=palliation",
        "--count", "left.perforation=1/20 attempted", "--count", "right.perforation=2/30 placed",
    )  # fmt: skip
    assert result.exit_code == 0, result.output
    left, right = read_back(review).arms
    assert (left.strata, right.strata) == ({"intent": "bridge"}, {"intent": "palliation"})
    assert (left.outcomes["perforation"].total, right.outcomes["perforation"].of) == (20, "placed")
    assert left.covers == right.covers == "part"
    assert left.outcomes["perforation"].window == "not_stated"


def test_a_doubt_about_the_new_file_is_told_at_once(review):
    counted = [one.replace("printed 7.5%", "printed 9.5%") for one in COUNTED]
    result = run("study", review, *WHOLE, *counted)
    assert result.exit_code == 0
    assert "Doubt: 2012-hazel.yaml" in result.output
    assert "9.5%" in result.output


def test_a_treatment_is_asked_where_the_plan_lists_them(review):
    plan = review / "review.yaml"
    listed = "treatments: {stent: a stent, surgery: an operation}\nstrata:\n"
    plan.write_text(plan.read_text("utf-8").replace("strata:\n", listed), "utf-8")
    result = run("study", review, *WHOLE, *COUNTED)
    assert "--treatment is missing: which treatment had 'all'" in said(result)
    assert run("study", review, *WHOLE, *COUNTED, "--treatment", "stent").exit_code == 0
    text = (review / "2012-hazel.yaml").read_text("utf-8")
    assert "treatment: stent\n" in text


def test_no_terminal_means_no_question(review):
    words = [sys.executable, "-m", "evsyn", "new", "study", str(review), *WHOLE]
    done = subprocess.run(
        [*words, "--arm", "all=40"], input="", capture_output=True, text=True, check=False
    )
    assert done.returncode == 1
    assert "--count is missing: one count of 'all'" in " ".join(done.stderr.split())
    done = subprocess.run([*words, *COUNTED], input="", capture_output=True, text=True, check=True)
    assert "Written: " in done.stdout
    assert read_back(review).arms[0].patients == 40
