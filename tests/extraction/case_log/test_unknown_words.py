"""Words that are not known are told once each, as lines that can be pasted."""

import pytest

from evsyn.extraction.case_log.unknown_words import nearly
from evsyn.extraction.yaml_text import parse_bytes
from evsyn.reporting.findings import findings_text
from tests.extraction.case_log.made_up import ROWS, table

STAGES = "considered (not attempted), attempted (not placed), placed (not relieved), relieved"


def lines_of(made):
    """Return the lines to paste, without those above them."""
    (found,) = made.found()
    return found.cure.split("\n")[2:]


def test_every_word_of_every_column_stands_once_with_its_rows(made):
    odd = ROWS[0].replace("palliation", "cure").replace("alive", "well")
    made.write(table(ROWS[1], *[odd] * 5, ROWS[2].replace("bridge", "Cure")))
    (found,) = made.found()
    assert found.message == "2 words are not known, in columns 'intent', 'patient_end'"
    assert lines_of(made) == [
        "  cure: ...   # 6 rows, first row 4; one of palliation, bridge (bridge to surgery), mixed,"
        " not_stated",
        "  well: ...   # 5 rows, first row 4; one of alive (alive at last contact), "
        "died_early (died within 30 days), died_later (died after 30 days), "
        "lost (lost to follow-up), unknown",
    ]


def test_a_word_of_two_columns_is_one_line(made):
    made.write(table(ROWS[0].replace("palliation", "hm").replace("alive", "hm")))
    (line,) = lines_of(made)
    assert line.startswith("  hm: ...   # 2 rows, first row 3; one of palliation")
    assert "died_early" in line


@pytest.mark.parametrize(
    ("row", "written"),
    [(5, "not attempted"), (4, "no placement"), (4, "failed to place"), (3, "unrelieved")],
)
def test_no_word_is_offered_for_its_opposite(made, row, written):
    (line,) = lines_of(made.with_cell(row, "reached", written))
    assert line == f"  {written}: ...   # row {row}; one of {STAGES}"


@pytest.mark.parametrize(
    ("written", "known", "near"),
    [
        ("atempted", ["attempted"], "attempted"),
        ("relived", ["relieved"], "relieved"),
        ("unknwon", ["unknown"], "unknown"),
        ("not atempted", ["not attempted"], "not attempted"),
        ("not attempted", ["attempted"], None),
        ("unplaced", ["placed"], None),
        ("nicht gesetzt", ["gesetzt"], None),
        ("non perforé", ["perforé"], None),
        ("never crossed", ["crossed"], None),
        ("failed crossing", ["crossing"], None),
        ("incomplete", ["complete"], None),
        ("unplacd", ["placed"], None),
        ("removed", ["in place"], None),
    ],
)
def test_the_nearest_word(written, known, near):
    assert nearly(written, known) == near


def test_the_nearest_known_word_is_offered(made):
    (line,) = lines_of(made.with_cell(3, "intent", "paliation"))
    assert line == "  paliation: ...   # row 3; did you mean palliation?"


def test_a_word_of_the_unit_s_own_list_is_offered_too(made):
    made.say(words={"BTS": "bridge"}).with_cell(3, "intent", "BTZ")
    assert lines_of(made)[0].endswith("did you mean BTS?")


@pytest.mark.parametrize("written", ["migrated + in place", "migrated / removed", "moved and out"])
def test_two_ends_in_one_cell_want_a_semicolon(made, written):
    (line,) = lines_of(made.with_cell(3, "device_end", written))
    assert "; write ';' between two ends; one of in_place (in place at last contact" in line


def test_one_end_wants_none(made):
    assert "';'" not in lines_of(made.with_cell(3, "device_end", "migrated;gone"))[0]


@pytest.mark.parametrize(
    "written", ["stent in: no relief", "#4", "38.5", "'t", "on", "~", "- x", "<30 d", "a # b", "Ja"]
)
def test_the_lines_are_read_as_they_stand(made, written):
    made.with_cell(4, "intent", written)
    (found,) = made.found()
    text = "\n".join(found.cure.split("\n")[1:]).replace("...", "bridge")
    root = parse_bytes(text.encode()).root
    assert dict(root["words"]) == {written: "bridge"}
    assert made.say(words=dict(root["words"])).read().cases[1].strata == {"intent": "bridge"}


def test_the_lines_keep_their_shape_on_the_screen(made):
    made.with_cell(3, "intent", "cure")
    text = findings_text("unit.yaml", None, made.found())
    assert "\n    words:\n      cure: ...   # row 3; one of palliation, bridge" in text
    assert text.endswith("\n    [case-log]")


def test_a_long_text_is_not_repeated(made):
    (found,) = made.with_cell(3, "site", "x" * 31).found()
    assert "xxx" not in found.message + found.cure
    assert found.cure.startswith("Write one of these: rectum, left_colon, mixed")
