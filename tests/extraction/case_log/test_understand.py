"""What a row says, and the rows that no case could be."""

import pytest

from tests.extraction.case_log.made_up import HEADINGS, ROWS, table


@pytest.mark.parametrize(
    ("row", "heading", "value", "message"),
    [
        # Words.
        (3, "intent", "paliation", "one word is not known, in column 'intent'"),
        (4, "stoma", "maybe", "one word is not known, in column 'stoma'"),
        (4, "reached", "home", "one word is not known, in column 'reached'"),
        (4, "perforation", "soon", "one word is not known, in column 'perforation'"),
        (4, "fever", "38.5", "one word is not known, in column 'fever'"),
        (3, "device_end", "migrated;gone", "one word is not known, in column 'device_end'"),
        (3, "site", "x" * 31, "column 'site', row 3: a long text, where a word is asked for"),
        (3, "devices", "two", "column 'devices', row 3 holds 'two': no whole number"),
        (3, "devices", "-1", "column 'devices', row 3 holds '-1': no whole number"),
        (3, "length", "long", "column 'length', row 3 holds 'long': no number"),
        (5, "month", "Ju 23", "column 'month', row 5 holds 'Ju 23': no month"),
        (5, "month", "", "row 5: the column 'month' is empty"),
        (5, "reached", "", "row 5: the column 'reached' is empty"),
        (5, "month", "2024-01", "row 5: the month is outside the unit's period"),
        # What cannot be.
        (5, "bridged", "yes", "row 5: reached the planned operation, and did not reach 'placed'"),
        (5, "migration", "late", "row 5: had a migration, and did not reach 'placed'"),
        (4, "reached", "considered", "row 4: had a perforation, and did not reach 'attempted'"),
        (5, "fever", "yes", "row 5: fever is yes, and the case was not placed"),
        (5, "devices", "1", "row 5: devices are counted, and none was placed"),
        (5, "device_end", "migrated", "row 5: a device ended, and none was placed"),
        (4, "devices", "0", "row 4: the case was placed, and holds no device"),
        (4, "devices", "2", "row 4: the ends of devices are not as many as the devices"),
        (3, "migration", "no", "row 3: a device migrated, and 'migration' is no"),
        (4, "bridged", "no", "row 4: a device removed at the operation, and 'bridged' is no"),
    ],
)
def test_each_fault_names_its_row_and_column(made, row, heading, value, message):
    faults = made.with_cell(row, heading, value).faults()
    ((place, path),) = [one[:2] for one in faults if one[2].startswith(message)]
    assert place == f"log.csv, line {row}"
    assert path in HEADINGS.split(",")


def test_all_faults_of_the_cells_are_told_at_once(made):
    made.write(table(ROWS[0].replace("palliation", "cure"), ROWS[1].replace("2021", "2031")))
    assert len(made.faults()) == 2


def test_a_step_within_a_step(made):
    made.write(table(f"{ROWS[0]},yes", headings=f"{HEADINGS},reversed"))
    ((_, path, message),) = made.faults()
    assert (path, message) == ("reversed", "row 3: had the stoma closed, and 'stoma' is no")


def test_rows_with_the_same_fault_are_told_together(made):
    made.write(table(ROWS[2], ROWS[2].replace("bridge,no", "bridge,yes"), *[ROWS[2]] * 2))
    made.say(outcomes={"success": {"of": "attempted", "reached": "placed"}})
    assert [message for *_, message in made.faults()] == [
        "row 4: reached the planned operation, and did not reach 'placed'"
    ]


@pytest.mark.parametrize(
    ("heading", "written", "words"),
    [
        ("intent", "Bridge to Surgery", {}),
        ("intent", "BTS", {"bts": "bridge"}),
        ("bridged", "ja", {"Ja": "yes"}),
        ("month", "Nov 2021", {}),
        ("month", "11.21", {"11.21": "2021-11"}),
        ("perforation", "früh", {"früh": "early"}),
        ("site", "Left-Colon", {}),
    ],
)
def test_words_are_taken_by_name_label_or_the_unit_s_own_list(made, heading, written, words):
    plain = made.read().cases[1]
    made.with_cell(4, heading, written).say(words=words)
    assert made.read().cases[1] == plain


@pytest.mark.parametrize(
    ("word", "perforation", "early_count", "outcome"),
    [
        ("no", "no", 0, "no"),
        ("early", "early", 1, "yes"),
        ("late", "late", 0, "no"),
        ("early and late", "both", 1, "yes"),
        ("yes", "ever", None, "unknown"),
        ("", "unknown", None, "unknown"),
    ],
)
def test_a_complication_tells_its_outcome_by_the_window(
    made, word, perforation, early_count, outcome
):
    checked = made.with_cell(4, "perforation", word).read()
    case = checked.cases[1]
    assert case.complications["perforation"] == perforation
    assert case.outcomes["perforation"] == outcome
    counted = checked.unit.complications.get("perforation")
    assert (None if counted is None else counted.early) == early_count


def test_an_outcome_with_a_column_of_its_own_must_agree_with_the_course(made):
    names = f"{HEADINGS},hole"
    rows = [f"{row},{hole}" for row, hole in zip(ROWS, ("yes", "no", "no"), strict=True)]
    made.write(table(*rows, headings=names))
    made.say(outcomes={"perforation": {"of": "attempted", "column": "hole", "window": "30_days"}})
    said = "by its column, and"
    assert made.faults() == [
        ("log.csv, line 3", "hole", f"row 3: perforation happened {said} not by the course"),
        ("log.csv, line 4", "hole", f"row 4: perforation did not happen {said} did by the course"),
    ]


def test_what_an_outcome_tells_of_a_step_is_learnt(made):
    names = f"{HEADINGS},hole"
    early_or_late = ROWS[1].replace("early", "yes")
    made.write(table(f"{early_or_late},no", headings=names))
    made.say(outcomes={"perforation": {"of": "attempted", "column": "hole", "window": "30_days"}})
    (case,) = made.read().cases
    assert case.complications["perforation"] == "late"


@pytest.mark.parametrize(
    ("outcomes", "key", "message"),
    [
        ({"fevr": {"of": "placed"}}, "", "'fevr' is not an outcome of the plan"),
        ({"fever": {"of": "resected"}}, "of", "'resected' is not a stage of the flow of the plan"),
        ({"fever": {"of": "placed", "window": "x"}}, "window", "'x' is not a window of the plan"),
        (
            {"fever": {"of": "placed", "reached": "x"}},
            "reached",
            "'x' is not a stage of the plan",
        ),
        (
            {"fever": {"of": "placed", "reached": "placed", "column": "fever"}},
            "",
            "fever is read in two ways",
        ),
        (
            {"perforation": {"of": "attempted", "window": "30_days", "opposite": True}},
            "opposite",
            "perforation is read from the course of the case, which has no opposite",
        ),
        ({"fever": {"of": "placed", "column": "heat"}}, "column", "log.csv has no column headed"),
        (
            {"fever": {"of": "placed", "column": "migration"}},
            "",
            "the log does not say who had the outcome fever",
        ),
    ],
)
def test_what_the_unit_file_says_of_outcomes_is_checked(made, outcomes, key, message):
    name = next(iter(outcomes))
    place, path, said = made.say(outcomes=outcomes).faults()[0]
    assert said.startswith(message)
    assert place.startswith("unit.yaml, line ")
    assert path == f"case_log.outcomes.{name}.{key}".rstrip(".")


def test_a_word_that_stands_for_nothing_is_a_fault(made):
    ((_, path, message),) = made.say(words={"BTS": "brigde"}).faults()
    assert (path, message) == (
        "case_log.words.BTS",
        "'BTS' is said to mean 'brigde', which no column knows",
    )
