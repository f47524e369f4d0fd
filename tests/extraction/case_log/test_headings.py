"""Which column holds what, and what is said of those that are not read."""

import pytest

from tests.extraction.case_log.made_up import HEADINGS, table


def renamed(old, new):
    names = [new if one == old else one for one in HEADINGS.split(",")]
    return table(headings=",".join(names))


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("intent", "INTENT "),
        ("patient_end", "Patient end"),
        ("device_end", "device-end"),
        ("reached", "Furthest stage"),
        ("stoma", "Had a stoma made"),
    ],
)
def test_a_name_or_a_label_is_enough(made, old, new):
    made.write(renamed(old, new))
    if old == "stoma":
        made.log["outcomes"] = {**made.log["outcomes"]}
        made.log["outcomes"]["stoma_avoidance"] = {
            "of": "attempted",
            "column": new,
            "opposite": True,
        }
    assert made.faults() == []
    assert made.read().unit.groups[0].strata == {"intent": "palliation"}


def test_any_other_heading_is_named_in_the_unit_file(made):
    made.write(renamed("intent", "Why")).say(columns={"intent": "why"})
    assert made.read().unit.groups[1].strata == {"intent": "bridge"}


def test_an_outcome_is_known_by_its_label(made):
    made.write(renamed("fever", "Fever")).log["outcomes"]["fever"]
    made.say(outcomes={"fever": {"of": "placed"}})
    assert made.read().unit.groups[1].outcomes["fever"].events == 1


def test_what_is_not_read_is_a_note(made):
    made.write(renamed("intent", "Purpose"))
    (note,) = [one for one in made.found() if "not read" in one.message]
    assert note.severity == "note"
    assert note.message == "not read: column 'Purpose'"
    assert str(note.source) == "log.csv, line 2"


def test_a_heading_nearly_right_is_offered_its_word(made):
    made.write(renamed("intent", "Intnet"))
    (note,) = [one for one in made.found() if "not read" in one.message]
    assert note.cure.endswith(" Is 'Intnet' 'intent'?")
    made.write(renamed("intent", "Purposes")).say(columns={"intent": "Purpose"})
    (fault,) = [one for one in made.found() if one.severity == "fault"]
    assert fault.cure == "Did you mean 'Purposes'?"


def test_a_first_case_in_place_of_headings_is_not_repeated(made):
    lines = table().splitlines(keepends=True)
    made.write("".join([lines[0], *lines[2:]])).say(columns={"intent": "Purpose"})
    findings = made.found()
    said = " ".join(f"{one.message} {one.cure} {one.source.key_path}" for one in findings)
    assert "the log has no column 'month'" in said
    assert "no column headed 'Purpose'" in said
    for cell in lines[2].strip().split(","):
        assert len(cell) < 3 or cell not in said.split()


@pytest.mark.parametrize(
    ("content", "columns", "place", "path", "message"),
    [
        (
            table(),
            {"intent": "Purpose"},
            "unit.yaml, line ",
            "case_log.columns.intent",
            "log.csv has no column headed 'Purpose'",
        ),
        (
            table(),
            {"intnt": "intent"},
            "unit.yaml, line ",
            "case_log.columns.intnt",
            "'intnt' is nothing that a column of a log holds under this plan",
        ),
        (
            table(),
            {"intent": "site", "site": "site"},
            "unit.yaml, line ",
            "case_log.columns.site",
            "the column 'site' is given for both 'intent' and 'site'",
        ),
        (
            renamed("month", "when"),
            {},
            "log.csv, line 2",
            "",
            "the log has no column 'month' (month of each case)",
        ),
        (
            renamed("site", "Intent"),
            {},
            "log.csv, line 2",
            "Intent",
            "2 columns are headed 'intent'",
        ),
    ],
)
def test_faults(made, content, columns, place, path, message):
    made.write(content).say(columns=columns)
    ((where, key, said),) = made.faults()
    assert where.startswith(place)
    assert (key, said) == (path, message)
