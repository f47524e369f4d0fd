"""Every word an extract uses must be one the plan declares."""

import pytest

from evsyn.terms import Severity
from tests.extraction.builders import PLAN_FILE, REED_FILE, line_of


@pytest.mark.parametrize(
    ("old", "new", "message", "cure"),
    [
        ("perforation:\n", "perforatoin:\n", "'perforatoin' is not an outcome of the plan",
         "Did you mean 'perforation'?"),
        ("window: 30_days", "window: 30days", "'30days' is not a window of the plan",
         "Did you mean '30_days'?"),
        ("strata: {intent: palliation}", "strata: {intnet: palliation}",
         "'intnet' is not a stratum of the plan", "Did you mean 'intent'?"),
        ("strata: {intent: palliation}", "strata: {intent: paliation}",
         "'paliation' is not a level of 'intent' of the plan", "Did you mean 'palliation'?"),
        ("strata: {intent: palliation}", "strata: {era: early}",
         "'era' is not a stratum of the plan", "Known words: intent."),
        ("site: rectum,", "site: rectal,", "'rectal' is not a level of 'site' of the plan",
         "Did you mean 'rectum'?"),
        ("site: rectum,", "sit: rectum,", "'sit' is not a characteristic of an arm of the plan",
         "Did you mean 'site'?"),
        ("operator: surgeon", "operator: surgon",
         "'surgon' is not a level of 'operator' of the plan", "Did you mean 'surgeon'?"),
        ("operator: surgeon", "oprator: surgeon",
         "'oprator' is not a characteristic of a study of the plan", "Did you mean 'operator'?"),
    ],
)  # fmt: skip
def test_an_unknown_word_of_a_study(tiny, old, new, message, cure):
    line = line_of(tiny.folder, REED_FILE, old.strip())
    (finding,) = tiny.reed(old, new).found("names-known")
    assert (finding.message, finding.cure) == (
        message, cure,
    )  # fmt: skip
    assert finding.severity is Severity.FAULT
    assert (finding.source.file, finding.source.line) == (REED_FILE, line)


def test_an_unknown_denominator_basis(tiny):
    tiny.reed("of: attempted\n        window", "of: attemptd\n        window")
    (finding,) = tiny.found("names-known")
    assert finding.message == "'attemptd' is not a denominator basis of the plan"
    assert finding.source.key_path.endswith("perforation.of")


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("strata: {intent: palliation}", "strata: {intent: mixed}"),
        ("strata: {intent: palliation}", "strata: {intent: not_stated}"),
        ("strata: {intent: palliation}", "strata: {}"),
        ("window: 30_days", "window: not_stated"),
        ("of: attempted\n        window", "of: as_printed\n        window"),
        ("site: rectum", "site: mixed"),
        ("operator: surgeon", "operator: not_stated"),
    ],
)
def test_words_every_plan_knows(tiny, old, new):
    assert tiny.reed(old, new).found("names-known") == []


@pytest.mark.parametrize(
    ("old", "new", "message"),
    [
        ("denominators: [attempted, placed]", "denominators: [attempted, plced]",
         "'plced' is not a denominator basis of the plan"),
        ("    windows: [30_days]", "    windows: [30_day]", "'30_day' is not a window of the plan"),
        ("cut_year: 2005", "cut_year: 2005\n    stands_in_for: intend",
         "'intend' is not a stratum of the plan"),
    ],
)  # fmt: skip
def test_an_unknown_word_of_the_plan(tiny, old, new, message):
    (finding,) = tiny.plan(old, new).found("names-known")
    assert (finding.message, finding.source.file) == (message, PLAN_FILE)


@pytest.mark.parametrize(
    ("old", "new", "word"),
    [
        ("{attempted: patients attempted,", "{as_printed: all, attempted: patients attempted,",
         "as_printed"),
        ("  follow_up: {", "  not_stated: {label: x}\n  follow_up: {", "not_stated"),
        ("{palliation: palliation,", "{mixed: both, palliation: palliation,", "mixed"),
        ("{palliation: palliation,", "{mixed_or_not_stated: x, palliation: palliation,",
         "mixed_or_not_stated"),
        ("strata:\n", "strata:\n  overall: {label: x, asks: x, levels: {a: a}}\n", "overall"),
    ],
)  # fmt: skip
def test_a_word_of_fixed_meaning_cannot_be_declared(tiny, old, new, word):
    (finding,) = tiny.plan(old, new).found("names-known")
    assert finding.message == f"'{word}' has a fixed meaning and cannot be declared in the plan"
    assert finding.source.line == line_of(tiny.folder, PLAN_FILE, f"{word}: ")
