"""What a record refuses is told in sentences: the field, the nearest word, the right line."""

import pytest

from evsyn.extraction.faults import nearest
from evsyn.terms import Severity
from tests.extraction.builders import PLAN_FILE, REED_FILE, SEDGE_FILE, line_of


def only(findings):
    (finding,) = findings
    assert finding.rule == "readable"
    assert finding.severity is Severity.FAULT
    assert finding.cure.endswith((".", "?"))
    return finding


# What is written instead, and what the sentence must say; the line is that of the change.
@pytest.mark.parametrize(
    ("old", "new", "message", "cure"),
    [
        ("events: 4\n", "events: -1\n", "'events' is '-1', and must be at least 0", "how many had"),
        ("events: 4\n", "events: 4.0\n", "'events' must be a whole number, and is '4.0'", "no dec"),
        ("events: 4\n", 'events: "4"\n', "'events' must be a whole number, and is '4'", "quotes"),
        ("events: 4\n", "events: four\n", "'events' must be a whole number, and is 'four'", "how"),
        ("events: 4\n", "events: true\n", "'events' must be a whole number, and is 'true'", "how"),
        ("events: 4\n", "events:\n", "'events' must be a whole number, and is empty", "how many"),
        ("events: 4\n", "events: [4]\n", "'events' must be a whole number, and is a list", "how"),
        ("events: 4\n", "events: {a: 4}\n", "'events' must be a whole number, and is a group", ""),
        ("events: 4\n", "evnets: 4\n", "'evnets' is not a field here", "Did you mean 'events'?"),
        ("events: 4\n", "Events: 4\n", "'Events' is not a field here", "Did you mean 'events'?"),
        ("patients: 52", "patients: 0", "'patients' is '0', and must be at least 1", "number of"),
        ("covers: whole_study", "covers: whole", "'covers' is 'whole', which is not a known word",
         "Did you mean 'whole_study'?"),
        ("from: full_text", "from: fulltext", "'from' is 'fulltext', which is not a known word",
         "Did you mean 'full_text'?"),
        ("from: full_text", "from: xyz", "'from' is 'xyz', which is not a known word",
         "Known words: full_text, abstract, second_hand."),
        ("invented: true", "invented: yes", "'invented' must be true or false, and is 'yes'",
         "Write true or false."),
        ("on: 2026-01-05", "on: 2026-02-30", "'on' is '2026-02-30', and must be a date", "day of"),
        ("on: 2026-01-05", "on: 5.1.2026", "'on' is '5.1.2026', and must be a date", "day of"),
        ("from: 1995-03", "from: 1995-13", "'from' is '1995-13', and must be a date", "first year"),
        ("to: 1999", "to: 1999-02-29", "'to' is '1999-02-29', and must be a date", "last year"),
        ("to: 1999", "to: '99'", "'to' is '99', and must be a date", "last year"),
        ("arm: all", "arm: all patients", "'arm' is 'all patients', which is not a name",
         "A name has letters"),
        ("success:\n", "success rate:\n", "'success rate' is not a name", "A name has letters"),
        ("year: 2001", "year: 201", "'year' is '201', and must be at least 1900", "year of"),
        ("country: Nowhere", "country: ''", "'country' is empty", "country or countries"),
        ("country: Nowhere", "country: [A, B]", "'country' must be a piece of text, and is a list",
         "country or countries"),
        ("country: Nowhere", "country: true", "'country' must be a piece of text, and is 'true'",
         "country or countries"),
        ("centres: [Alder General]", "centres: many", "'centres' must be a whole number", "number"),
        ("centres: [Alder General]", "centres: {a: b}", "'centres' must be a whole number, and is "
         "a group of fields", "number of centres"),
        ("centres: [Alder General]", "centres: 0", "'centres' is '0', and must be at least 1", ""),
        ("centres: [Alder General]", "centres: [3]x", None, None),
        ("strata: {intent: palliation}", "strata: palliation",
         "'strata' must be a group of 'key: value' lines, and is 'palliation'", "level in each"),
        ("citation:\n", "citation: Reed 2001\nother:\n", None, None),
    ],
)  # fmt: skip
def test_refusals_of_a_study(tiny, old, new, message, cure):
    line = line_of(tiny.folder, REED_FILE, old.strip().splitlines()[0])
    findings = tiny.reed(old, new).found()
    if message is None:
        assert findings
        assert {finding.source.file for finding in findings} == {REED_FILE}
        return
    named = [one for one in findings if one.message.startswith(message)]
    finding = only(named)
    assert cure in finding.cure
    assert (finding.source.file, finding.source.line) == (REED_FILE, line)


def test_each_missing_field_of_one_group(tiny):
    found = tiny.reed("        total: 52\n        of: attempted\n        at", "        at").found()
    assert {one.message for one in found} == {"'total' is missing", "'of' is missing"}
    line = line_of(tiny.folder, REED_FILE, "success:")
    assert {one.source.line for one in found} == {line}
    assert {one.source.key_path for one in found} == {
        "arms.0.outcomes.success.total",
        "arms.0.outcomes.success.of",
    }


def test_a_file_of_no_arms(tiny):
    text = (tiny.folder / REED_FILE).read_text(encoding="utf-8")
    tiny.write(REED_FILE, text[: text.index("arms:")] + "arms: []\n")
    finding = only(tiny.found())
    assert finding.message == "'arms' must be a list with at least 1 '- ' item"
    assert finding.source.line == line_of(tiny.folder, REED_FILE, "arms:")


def test_lines_in_flow_style(tiny):
    old = "perforation: {events: 1, total: 25, of: attempted, window: 30_days, at: abstract}"
    new = "perforation: {events: 1, total: 25,\n        of: attempted, windw: 30_days}"
    finding = only(tiny.sedge(old, new).found())
    assert finding.message == "'windw' is not a field here"
    assert finding.cure == "Did you mean 'window'?"
    assert finding.source.line == line_of(tiny.folder, SEDGE_FILE, "windw")


def test_a_list_item_is_counted_from_one(tiny):
    finding = only(tiny.reed("centres: [Alder General]", "centres: [Alder, '']").found())
    assert finding.message == "'item 2' is empty"


def test_all_faults_of_all_files_are_told_together(tiny):
    tiny.reed("events: 4\n", "events: -4\n").reed("on: 2026-01-05", "on: soon")
    tiny.sedge("patients: 30", "patients: some").plan("better: fewer", "better: less")
    found = tiny.found()
    assert {(one.source.file, one.message.split("'")[1]) for one in found} == {
        (PLAN_FILE, "better"),
        (REED_FILE, "events"),
        (REED_FILE, "on"),
        (SEDGE_FILE, "patients"),
    }


@pytest.mark.parametrize(
    ("old", "new", "message"),
    [
        ("level: 0.95", "level: high", "'level' must be a number, and is 'high'"),
        ("level: 0.95", "level: 95", "'level' is '95', and must be below 1"),
        ("level: 0.95", "level: 0.2", "'level' is '0.2', and must be above 0.5"),
        ("level: 0.95", "between: fixed", "'between' is 'fixed', which is not a known word"),
    ],
)
def test_refusals_of_pooling_choices(tiny, old, new, message):
    tiny.plan("characteristics:\n", "pooling: {level: 0.95}\ncharacteristics:\n")
    assert only(tiny.plan(old, new).found()).message == message


@pytest.mark.parametrize(
    ("old", "new", "message"),
    [
        ("search: none", "search: some", "'search' is 'some', which is not a known word"),
        ("search: none", "search: [{name: X}]", "'on' is missing"),
        ("cut_year: 2005", "cut_year: 205", "'cut_year' is '205', and must be at least 1900"),
        ("    asks: what it was meant for\n", "", "'asks' is missing"),
        ("windows: [30_days]", "windows: 30_days", "'windows' must be a list"),
        ("kind: number", "kind: whole", "'kind' is 'whole', which is not a known word"),
    ],
)
def test_refusals_of_a_plan(tiny, old, new, message):
    assert only(tiny.plan(old, new).found()).message.startswith(message)


def test_a_plan_without_outcomes(tiny):
    text = (tiny.folder / PLAN_FILE).read_text(encoding="utf-8")
    head, rest = text.split("outcomes:\n")
    tiny.write(PLAN_FILE, f"{head}outcomes: {{}}\nstrata:\n{rest.split('strata:')[1]}")
    assert only(tiny.found()).message == "'outcomes' must hold at least one 'key: value' line"


@pytest.mark.parametrize(
    ("word", "known", "sentence"),
    [
        ("perforatoin", ["perforation", "success"], "Did you mean 'perforation'?"),
        ("PERFORATION", ["perforation"], "Did you mean 'perforation'?"),
        ("tts", ["BTS", "TTS"], "Did you mean 'TTS'?"),
        ("zzz", ["b", "a"], "Known words: b, a."),
        ("zzz", [], "Known words: none are declared."),
    ],
)
def test_nearest(word, known, sentence):
    assert nearest(word, known) == sentence
