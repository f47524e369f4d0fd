"""What is typed into a workbook arrives in the files; nothing else changes, and nothing is lost."""

import pytest

from evsyn.extraction.load import UnreadableError, read_review
from evsyn.extraction.writing.edit import EditError
from tests.extraction.builders import REED_FILE, SEDGE_FILE

REED = ("2001-reed", "all", "perforation")


def test_an_untouched_workbook_changes_nothing(desk):
    found = desk.read()
    assert (found.texts, found.findings, found.absent) == ({}, (), ())
    assert [draft.name for draft in found.all_drafts] == ["2001-reed", "2010-sedge"]


def test_a_new_paper_becomes_a_file_that_passes_the_checks(desk):
    before = desk.files()
    desk.new_paper()
    found = desk.write()
    assert found.faults == ()
    after = desk.files()
    new = after.pop("2015-rowan.yaml").decode()
    assert after == before
    assert new.startswith("# yaml-language-server: $schema=schema/study.json\nformat: 1\n")
    review = read_review(desk.folder)
    study = review.study("2015-rowan")
    assert review.faults == ()
    assert study.invented
    assert study.setting.centres == ["Cedar House", "Larch House"]
    count = study.arms[0].outcomes["perforation"]
    assert (count.events, count.total, count.of, count.printed) == (5, 62, "attempted", "8.1%")
    assert not desk.read().texts


def test_a_changed_cell_changes_its_value_alone_and_comments_stay(tiny, desk):
    tiny.reed("        events: 4\n", "        events: 4  # counted twice\n")
    desk.put("Counts", REED, "events", 5)
    desk.put("Counts", REED, "printed", "9.6%")
    before = (desk.folder / REED_FILE).read_text(encoding="utf-8")
    found = desk.write()
    after = (desk.folder / REED_FILE).read_text(encoding="utf-8")
    wanted = before.replace("events: 4  # counted twice", "events: 5  # counted twice")
    assert after == wanted.replace('"7.7%"', '"9.6%"')
    assert [(edit.what, edit.before, edit.after) for edit in found.drafts[0].edits] == [
        ("all.perforation events", 4, 5),
        ("all.perforation printed", "7.7%", "9.6%"),
    ]
    assert not desk.read().texts


@pytest.mark.parametrize("mark", [b"", b"\xef\xbb\xbf"])
def test_windows_line_ends_and_byte_order_mark_stay(tiny, desk, mark):
    raw = mark + (desk.folder / REED_FILE).read_bytes().replace(b"\n", b"\r\n")
    tiny.write(REED_FILE, raw)
    desk.put("Counts", REED, "events", 5)
    desk.write()
    assert (desk.folder / REED_FILE).read_bytes() == raw.replace(b"events: 4\r", b"events: 5\r")


def test_new_arms_and_counts_go_into_the_file_that_is_there(desk):
    row = {"of": "attempted", "window": "30_days", "at": "p. 4"}
    desk.add("Arms", study="2010-sedge", arm="later", intent="bridge", patients=9)
    desk.add(
        "Counts", study="2010-sedge", arm="later", outcome="perforation", events=1, total=9, **row
    )
    desk.add(
        "Counts", study="2010-sedge", arm="bridge", outcome="success", events=20, total=25, **row
    )
    found = desk.write()
    assert found.drafts[0].added == ["later", "bridge.success"]
    _, bridge, later = read_review(desk.folder).study("2010-sedge").arms
    assert (later.arm, later.patients, later.outcomes["perforation"].total) == ("later", 9, 9)
    assert list(bridge.outcomes) == ["perforation", "success"]
    assert not desk.read().texts


def test_an_emptied_cell_and_a_deleted_row_take_nothing_away_and_are_told(desk):
    cell = desk.put("Counts", REED, "printed", None)
    desk.book["Counts"].delete_rows(desk.row("Counts", "2010-sedge", "bridge", "perforation"))
    found = desk.read()
    assert found.texts == {}
    (emptied,) = found.all_drafts[0].emptied
    assert (emptied.cell, emptied.before) == (cell, "7.7%")
    assert found.all_drafts[1].left() == ["bridge.perforation"]


def test_a_study_the_workbook_lacks_is_named(desk):
    for sheet in ("Studies", "Arms", "Counts"):
        desk.book[sheet].delete_rows(desk.row(sheet, "2001-reed"))
    desk.book["Counts"].delete_rows(desk.row("Counts", "2001-reed"))
    assert desk.read().absent == ("2001-reed",)


@pytest.mark.parametrize(
    ("sheet", "names", "heading", "typed", "says"),
    [
        ("Counts", REED, "of", "atempted", "'atempted' is not a denominator basis"),
        ("Counts", REED, "window", "60_days", "'60_days' is not a window"),
        ("Counts", REED, "counted by", "patent", "'patent', which is not a known word"),
        ("Counts", REED, "events", 99, "cannot be"),
        ("Counts", REED, "total", "52 or so", "must be a whole number"),
        ("Counts", REED, "total", 0, "must be at least 1"),
        ("Arms", REED[:2], "intent", "cure", "'cure' is not a level"),
        ("Arms", REED[:2], "covers", "half", "'half', which is not a known word"),
        ("Arms", REED[:2], "part of", "none such", "is not a name"),
        ("Studies", REED[:1], "extracted on", "5 May", "holds '5 May', which is no day"),
        ("Studies", REED[:1], "recruited from", "1999-13", "which is no year, month or day"),
        ("Studies", REED[:1], "year", 2150, "must be at most 2100"),
        ("Studies", REED[:1], "operator", "nurse", "'nurse' is not a level"),
    ],
)  # fmt: skip
def test_a_fault_is_told_by_its_cell_and_nothing_is_written(
    desk, sheet, names, heading, typed, says
):
    cell = desk.put(sheet, names, heading, typed)
    found = desk.read()
    assert found.texts == {}
    assert any(one.source.key_path == cell and says in one.message for one in found.faults)
    assert all(one.cure for one in found.faults)
    assert {one.source.file for one in found.faults} == {"tiny.xlsx"}


def test_what_a_new_paper_lacks_is_told_by_the_cell_it_belongs_into(desk):
    desk.new_paper()
    cells = [
        desk.put("Studies", ("2015-rowan",), "extracted on", None),
        desk.put("Arms", ("2015-rowan",), "patients", None),
        desk.put("Counts", ("2015-rowan",), "of", None),
    ]
    assert {one.source.key_path for one in desk.read().faults} == set(cells)


def test_a_row_whose_study_or_arm_is_unknown_is_a_fault(desk):
    row = desk.add("Counts", study="2001-reed", arm="al", outcome="success", events=1, total=2)
    cell, message, cure = desk.fault()
    assert (cell, message) == (f"Counts!B{row}", "'al' is not an arm of the study '2001-reed'")
    assert cure.endswith("Did you mean 'all'?")
    desk.book["Counts"].cell(row, 1).value = "2001-red"
    assert desk.fault()[1].startswith("'2001-red' is not a study of the sheet Studies")


@pytest.mark.parametrize("name", ["2001-Reed", "review", "unit-glade", "../reed", "2001 reed"])
def test_a_name_no_new_file_can_have_is_a_fault(desk, name):
    desk.new_paper(name)
    row = desk.row("Studies", name)
    cell, message, _ = desk.fault()
    assert cell == f"Studies!A{row}"
    assert name in message


def test_beside_a_name_with_a_space_other_mistakes_are_told_too(desk):
    desk.new_paper("2015 rowan")
    wrong = desk.put("Counts", ("2015 rowan",), "of", "atempted")
    named, other = desk.read().faults
    assert named.cure.endswith("Write it on every sheet as 2015-rowan.")
    assert (other.source.key_path, "'atempted'" in other.message) == (wrong, True)


def test_words_are_taken_by_label_and_without_regard_to_case_and_spaces(desk):
    desk.new_paper()
    desk.put("Counts", ("2015-rowan",), "window", "Within 30 Days")
    desk.put("Counts", ("2015-rowan",), "outcome", "Perforation")
    desk.put("Studies", ("2015-rowan",), "extracted from", "full text")
    desk.put("Arms", ("2015-rowan",), "covers", "Whole study")
    desk.put("Arms", ("2015-rowan",), "intent", "bridge to surgery")
    assert desk.write().faults == ()
    study = read_review(desk.folder).study("2015-rowan")
    assert (study.extracted.from_, study.arms[0].strata["intent"]) == ("full_text", "bridge")
    assert study.arms[0].outcomes["perforation"].window == "30_days"
    assert not desk.read().texts


def test_dates_are_taken_as_people_type_them(desk):
    desk.new_paper()
    desk.put("Studies", ("2015-rowan",), "extracted on", "25/11/2026")
    desk.put("Studies", ("2015-rowan",), "recruited from", "March 2009")
    desk.put("Studies", ("2015-rowan",), "recruited to", "Dec 2013")
    assert desk.write().faults == ()
    study = read_review(desk.folder).study("2015-rowan")
    assert study.extracted.on == "2026-11-25"
    assert (study.setting.recruited.from_, study.setting.recruited.to) == ("2009-03", "2013-12")


def test_what_is_missing_is_named_by_its_heading(desk):
    desk.new_paper()
    desk.put("Studies", ("2015-rowan",), "extracted on", None)
    assert desk.fault()[1].startswith("'extracted on' is missing")


def test_a_percentage_for_a_count_is_sent_to_its_own_cell(desk):
    desk.new_paper()
    events = desk.put("Counts", ("2015-rowan",), "events", "8.1%")
    cell, _, cure = desk.fault()
    printed = desk.put("Counts", ("2015-rowan",), "printed", "8.1%")
    assert cell == events
    assert cure == f"Give digits alone, and the percentage under 'printed' ({printed})."


def test_a_study_without_an_arm_is_a_fault(desk):
    read = {"extracted_by": "QF", "extracted_on": "2026-01-20", "extracted_from": "abstract"}
    row = desk.add("Studies", study="2015-rowan", title="Sixty-two", **read)
    assert desk.fault()[:2] == (f"Studies!A{row}", "the study '2015-rowan' has no arm")


def test_a_doubt_about_what_is_written_is_told_by_its_cell(desk):
    desk.new_paper()
    desk.put("Counts", ("2015-rowan",), "printed", "12.5%")
    events = desk.cell("Counts", ("2015-rowan",), "events").coordinate
    found = desk.read()
    assert "2015-rowan.yaml" in found.texts
    (told,) = (one for one in found.findings if one.rule == "percentage-fits")
    assert told.source.key_path == f"Counts!{events}"


def test_a_doubt_about_another_file_is_told_if_a_new_paper_raises_it(desk):
    desk.new_paper("2005-rowan")
    desk.put("Studies", ("2005-rowan",), "year", 2005)
    desk.put("Studies", ("2005-rowan",), "centres", "Birch Infirmary")
    desk.put("Studies", ("2005-rowan",), "recruited from", "2006")
    desk.put("Studies", ("2005-rowan",), "recruited to", "2007")
    (told,) = (one for one in desk.read().findings if one.rule == "overlap-possible")
    assert told.source.file == SEDGE_FILE
    assert "2005-rowan" in told.message


def test_an_extract_that_cannot_be_read_stops_all(tiny, desk):
    tiny.reed("patients: 52", "patients: many")
    desk.put("Counts", ("2010-sedge",), "events", 3)
    with pytest.raises(UnreadableError, match="patients"):
        desk.read()


def test_an_empty_review_is_filled_from_a_workbook(desk):
    def told():
        return {one.study: one.model_dump() for one in read_review(desk.folder).studies}

    before = told()
    for name in (REED_FILE, SEDGE_FILE):
        (desk.folder / name).unlink()
    desk.write()
    assert told() == before


def test_the_newer_plan_is_told_against_the_older_workbook(tiny, desk):
    tiny.plan("windows:\n", "windows:\n  7_days: {label: a week, days: 7}\n")
    tiny.plan("  arm:\n", "  arm:\n    age: {label: Age, kind: number}\n")
    (told,) = desk.read().findings
    assert "windows with 7_days" in told.message
    assert "Arms with a column age" in told.message


def test_the_workbook_of_another_review_is_refused(tiny, desk):
    tiny.plan("review: tiny", "review: other")
    cell, message, _ = desk.fault()
    assert cell == "Read me"
    assert "made for the review 'tiny', and this is 'other'" in message


def test_faults_of_cells_and_of_checks_are_told_together(desk):
    desk.new_paper()
    cells = {
        desk.put("Counts", ("2015-rowan",), "events", "five"),
        desk.put("Counts", REED, "of", "atempted"),
        desk.put("Studies", ("2010-sedge",), "year", "MMX"),
    }
    faults = desk.read().faults
    assert len(faults) == 3
    assert {one.source.key_path for one in faults} == cells


def test_a_value_that_cannot_be_set_in_place_is_a_fault_of_its_cell(desk, monkeypatch):
    def refused(text, changes):
        raise EditError("the value could not be set in place")

    cell = desk.put("Counts", REED, "events", 5)
    monkeypatch.setattr("evsyn.extraction.sheet.read.edited", refused)
    found = desk.fault()
    assert found[0] == cell
    assert found[2] == f"Change it in {REED_FILE} by hand."
