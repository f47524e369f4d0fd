"""Reviews simulated as a reader would have it: sentences, tables, refusals, and fields."""

import json
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from evsyn.cli import cli
from tests.extraction.builders import TinyReview

ROOT = Path(__file__).parent.parent.parent
DEMO = ROOT / "studies" / "demo"
QUICK = ("--replications", "40", "--exact-replications", "20", "--workers", "1")
TYPED = ("--studies", "5", "--size", "30", "--rate", "10%", "--tau", "0.3")


def run(*words: object) -> Result:
    result = CliRunner().invoke(cli, ["calibrate", *map(str, words)])
    assert result.exception is None or isinstance(result.exception, SystemExit)
    return result


def flat(result: Result) -> str:
    return " ".join(result.output.split())


def test_a_review_gives_its_sizes_and_its_row_to_read_gives_the_truth() -> None:
    result = run(DEMO, "perforation", *QUICK)
    assert result.exit_code == 0
    assert result.output.startswith("INVENTED DATA: ")
    told = flat(result)
    assert "26 studies of 8 to 250 patients (median 60). Taken as true: 5.6% in the median" in told
    assert "Both are those of the row to read (the exact binomial-normal model)." in told
    assert "40 such reviews were drawn for the headline and restricted ML, and 20 for" in told
    assert "Of 100 reviews laid out like this, the 95% interval of the headline held" in told
    assert "What to do: " in told
    assert "it cannot say whether the studies are." in told
    assert all(len(line) <= 80 for line in result.output.splitlines())


def test_levels_of_a_stratum_are_compared_and_a_level_narrows_the_pool() -> None:
    result = run(DEMO, "perforation", "--by", "intent", *QUICK)
    told = flat(result)
    assert "palliation: 18 studies of" in told
    assert "With no true difference, the headline shows on average an odds ratio of" in told
    assert "stand in more than one level" in told
    result = run(DEMO, "perforation", "--level", "intent=palliation", *QUICK)
    assert "Perforation, palliation. 18 studies of" in flat(result)
    assert "With no true difference" not in result.output
    crossed = run(
        DEMO, "perforation", "--level", "intent=palliation", "--by", "device_generation", *QUICK
    )
    assert "Levels compared, all drawn from the same truth" in flat(crossed)
    assert all(len(line) <= 80 for line in crossed.output.splitlines())


def test_what_is_typed_stands_in_for_what_the_review_says() -> None:
    told = flat(run(DEMO, "perforation", "--tau", "1.1", "--cases", "25", *QUICK))
    assert "tau 1.10 between settings" in told
    assert "The rate is that of the row to read" in told
    assert "tau as typed." in told
    assert "new units with 25 cases" in told


def test_a_layout_can_be_typed_without_a_review() -> None:
    result = run(*TYPED, *QUICK)
    assert result.output.startswith("5 studies of 30 patients. Taken as true: 10.0% in the")
    assert "Both as typed." in result.output
    assert "it cannot say whether the studies are" not in flat(result)
    listed = run("--sizes", "30,30,30,30,30", "--rate", "0.1", "--tau", "0.3", *QUICK)
    assert listed.output == result.output


def test_levels_can_be_typed() -> None:
    sizes = ("--sizes", "old=20,20,20", "--sizes", "new=90,90,80")
    told = flat(run(*sizes, "--rate", "5%", "--tau", "0", *QUICK))
    assert "6 studies of 20 to 90 patients" in told
    assert "so that all settings share it" in told
    assert "old: 3 studies of 20 patients; new: 3 studies of 80 to 90 patients" in told


def test_few_studies_give_no_verdict_and_no_event_gives_no_row() -> None:
    told = flat(run("--studies", 3, "--size", 10, "--rate", "1%", "--tau", 0, *QUICK))
    assert "No unit would be given a verdict against such a review" in told
    assert "of 100 such reviews no row could be read. Give the counts then" in told


def test_the_same_words_print_the_same_and_another_seed_does_not() -> None:
    first = run(*TYPED, *QUICK).output
    assert run(*TYPED, *QUICK).output == first
    assert run(*TYPED, *QUICK, "--seed", 9).output != first


def test_fields_for_programs_hold_no_number_that_does_not_exist() -> None:
    result = run("--studies", 3, "--size", 4, "--rate", "0.1%", "--tau", 0, *QUICK, "--json")
    told = json.loads(result.output)
    assert told["seed"] == 74
    assert told["layout"]["cases"] == 4
    assert [one["line"] for one in told["lines"]] == [
        "headline", "restricted_ml", "exact", "reading",
    ]  # fmt: skip
    exact = told["lines"][2]
    assert exact["no_answer"]["value"] >= 0.9
    if exact["no_answer"]["value"] == 1:
        assert exact["coverage"] == {"value": None, "error": None}
    assert told["sentences"][-1].startswith("What to do: ")


@pytest.mark.parametrize(
    ("words", "told"),
    [
        ((), "Name a review and an outcome, or type --sizes"),
        ((DEMO, "perforation", "--studies", 5), "not both"),
        (("--studies", 5, "--rate", "5%", "--tau", 0), "--studies and --size go together"),
        (("--sizes", "20,30,40", "--tau", 0), "Without a review say what is taken as true"),
        (("--sizes", "20,30,40", "--rate", "5%", "--tau", 0, "--by", "era"), "belong to a review"),
        (
            ("--sizes", "20,30,40", "--sizes", "old=20,30,40", "--rate", "5%", "--tau", 0),
            "Repeat --sizes for levels only",
        ),
        (("--sizes", "1,2,3", "--studies", 3, "--rate", "5%", "--tau", 0), "not both"),
        ((*TYPED, "--workers", 0), "--workers is 1 or more"),
    ],
)
def test_words_that_do_not_go_together_are_a_mistake_of_use(
    words: tuple[object, ...], told: str
) -> None:
    result = run(*words)
    assert result.exit_code == 2
    assert told in flat(result)


@pytest.mark.parametrize(
    ("words", "told"),
    [
        ((DEMO,), "Name an outcome of this review. Known: perforation"),
        ((DEMO, "perforatoin"), "Did you mean 'perforation'?"),
        ((DEMO, "perforation", "--by", "intnet"), "Did you mean 'intent'?"),
        ((DEMO, "perforation", "--level", "intent=palliatoin"), "Did you mean 'palliation'?"),
        (
            (DEMO, "perforation", "--level", "intent=palliation", "--by", "intent"),
            "narrowed to one level of 'intent': compare another stratum",
        ),
        (
            (DEMO, "perforation", "--level", "intent=palliation", "--by", "era"),
            "'era' is read from the dates of a study",
        ),
        (("--sizes", "20,x,30", "--rate", "5%", "--tau", 0), "'20,x,30' is not a list of sizes"),
        (("--sizes", "20,30", "--rate", "5%", "--tau", 0), "this layout has 2"),
        (("--sizes", "20,30,40", "--rate", "5", "--tau", 0), "'5' is not a rate"),
        (("--sizes", "20,30,40", "--rate", "5%", "--tau", -1), "Tau lies between 0 and 5"),
        ((*TYPED, "--replications", 5), "At least 20 reviews are drawn"),
        ((*TYPED, "--seed", -5), "A seed is a whole number"),
    ],
)
def test_what_cannot_be_simulated_is_refused_with_a_sentence(
    words: tuple[object, ...], told: str
) -> None:
    result = run(*words)
    assert result.exit_code == 1
    assert told in flat(result)
    assert "Traceback" not in result.output


def test_a_pool_of_two_studies_has_no_interval_to_try(tmp_path: Path) -> None:
    TinyReview(tmp_path)
    result = run(tmp_path, "perforation")
    assert result.exit_code == 1
    assert "2 of the review's studies report this, and a review is pooled from 3 on" in flat(result)
