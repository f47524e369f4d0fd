"""What is not known of a case is told by row, with what it costs."""

import pytest

from tests.extraction.case_log.made_up import HEADINGS, ROWS, table


def notes(made):
    found = made.read().findings
    return [
        (one.source.line, one.message, one.cure)
        for one in found
        if one.severity == "note"
        and "ended so early" not in one.message
        and "read" not in one.message
    ]


def test_a_full_log_but_for_one_outcome(made):
    # The fever of row 5 is not known, and the case was never placed: it counts nowhere.
    assert notes(made) == []


@pytest.mark.parametrize(
    ("heading", "value", "said", "left_out"),
    [
        ("patient_end", "unknown", "no patient end", "the line 'Patients ended' is left out."),
        ("patient_end", "", "no patient end", "the line 'Patients ended' is left out."),
        ("device_end", "", "no device end", "the ends in the line 'Devices' are left out."),
        ("bridged", "", "bridged unknown", "bridged in the flow is left out."),
    ],
)
def test_what_is_left_out_of_the_flow(made, heading, value, said, left_out):
    made.with_cell(4, heading, value)
    if heading == "bridged":
        # The one device of the row was removed at the operation, which would tell it.
        made.write(table(ROWS[0], ROWS[1].replace("yes,no,early", ",no,early").replace(
            "removed", "in_place"), ROWS[2]))  # fmt: skip
    assert notes(made) == [(4, f"row 4: {said}", f"Until it is filled in, {left_out}")]


def test_devices_neither_counted_nor_ended(made):
    made.write(table(ROWS[0], ROWS[1].replace(",1,died_later,removed", ",,died_later,"), ROWS[2]))
    assert [message for _, message, _ in notes(made)] == [
        "row 4: no number of devices",
        "row 4: no device end",
    ]
    unit = made.read().unit
    assert (unit.devices, unit.devices_end) == (None, {})


def test_several_rows_are_told_together_at_the_first(made):
    made.write(table(*(row.replace(",alive,", ",,") for row in [ROWS[0]] * 5)))
    assert notes(made) == [
        (
            3,
            "rows 3, 4, 5 and 2 more: no patient end",
            "Until they are filled in, the line 'Patients ended' is left out.",
        )
    ]


def test_a_complication_is_left_out_of_the_flow_and_counted_as_an_outcome(made):
    made.with_cell(4, "perforation", "")
    assert notes(made) == [
        (
            4,
            "row 4: perforation unknown; as an outcome counted as unknown, best and worst case",
            "Until it is filled in, perforation among the complications is left out.",
        )
    ]
    unit = made.read().unit
    assert "perforation" not in unit.complications
    assert unit.groups[1].outcomes["perforation"].unknown == 1


def test_a_complication_at_a_time_not_told(made):
    made.with_cell(4, "perforation", "yes")
    ((line, message, cure),) = notes(made)
    assert (line, message) == (
        4,
        "row 4: perforation, early or late not told; as an outcome counted as unknown, best and "
        "worst case",
    )
    assert cure == "Until it is filled in, perforation as early and as late is left out."
    counted = made.read().unit.complications["perforation"]
    assert (counted.early, counted.late, counted.ever) == (None, None, 1)


def test_an_outcome_of_another_name_than_its_step_is_named(made):
    # With a case that was only considered, the log tells the stomas of the whole flow.
    considered = "2022-05,considered,palliation,,yes,,,,,,,,,d,"
    made.write(table(ROWS[0], ROWS[1], ROWS[2].replace("no,yes,no", "no,,no"), considered))
    assert notes(made) == [
        (
            5,
            "row 5: stoma unknown; as an outcome (stoma_avoidance) counted as unknown, best and "
            "worst case",
            "Until it is filled in, stoma in the flow is left out.",
        )
    ]


def test_an_outcome_alone_is_counted_and_never_said_to_be_left_out(made):
    made.with_cell(4, "fever", "")
    assert notes(made) == [
        (
            4,
            "row 4: fever unknown; counted as unknown, best and worst case",
            "Fill in the cells where the notes tell.",
        )
    ]
    assert made.read().unit.groups[1].outcomes["fever"].unknown == 1


def test_an_outcome_not_known_of_more_rows_is_told_apart(made):
    made.write(table(*(f"{row},{hole}" for row, hole in zip(
        (ROWS[0], ROWS[1].replace("early", ""), ROWS[2]), ("no", "", ""), strict=True
    )), headings=f"{HEADINGS},hole"))  # fmt: skip
    made.say(outcomes={"perforation": {"of": "attempted", "column": "hole"}})
    assert [message for _, message, _ in notes(made)] == [
        "row 4: perforation unknown",
        "rows 4 and 5: perforation unknown; counted as unknown, best and worst case",
    ]


def test_stages_before_the_log_begins_are_named_once(made):
    (note,) = [one for one in made.found() if "ended so early" in one.message]
    assert note.message.endswith("ended so early: considered, stoma")


def test_columns_that_are_not_read_are_told_what_they_may_be(made):
    made.write(table(headings=HEADINGS.replace("intent", "Purpose")))
    (note,) = [one for one in made.found() if "not read" in one.message]
    assert "(columns may be: intent, delivery, reversed, reobstruction)" in note.cure
