"""What keeps a typed pooling from being redone is told all at once, each with its line."""

import pytest

from evsyn.extraction.load import UnreadableError
from evsyn.reproduction.load import read_pooling
from tests.reproduction.builders import published, typed


def refused(folder, *changes, **of):
    with pytest.raises(UnreadableError) as caught:
        typed(folder, *changes, **of)
    return [(finding.source.line, finding.message) for finding in caught.value.findings]


BILBERRY = "{study: Bilberry 1998, first: {events: 6, total: 55}, second: {events: 8, total: 50}}"
ALDER = "{study: Alder 1996, first: {events: 4, total: 40}, second: {events: 9, total: 41}}"


@pytest.mark.parametrize(
    ("changes", "line", "words"),
    [
        ([("{events: 4, total: 40}", "{events: 44, total: 40}")], 7, "44 events among 40"),
        ([("events: 4, ", "")], 7, "does not hold one whole set of numbers"),
        ([(BILBERRY, "{study: Bilberry 1998, events: 6, total: 55}")], 8, "the first row gives"),
        ([(ALDER, "{study: Alder 1996, events: 4, total: 40}")], 5, "as 'odds ratio'"),
        ([("odds ratio", "mean difference")], 5, "cannot be pooled as 'mean difference'"),
        ([("odds ratio", "odds")], 5, "not a known word"),
        ([("estimate: 0.50", "estimate: half")], 11, "must be a number as printed"),
        ([("overall: {estimate: 0.50}", "overall: {}")], 10, "nothing is printed"),
        ([("overall: {estimate: 0.50}", "groups: [{group: x, q: 1}]")], 11, "stands in the group"),
        ([("total: 41", "totl: 41")], 7, "'totl' is not a field here"),
        ([("format: 1", "format: 2")], 1, "format 2"),
        ([("events: 4", "events: 4.5")], 7, "must be a whole number"),
    ],
)
def test_a_fault_has_its_line(tmp_path, changes, line, words):
    found = refused(tmp_path, *changes)
    assert any(at == line and words in said for at, said in found), found


def test_counts_beside_a_given_effect_are_two_sets_of_numbers(tmp_path):
    change = (ALDER, ALDER[:-1] + ", estimate: 0.4, low: 0.1, high: 1.4}")
    assert "one whole set" in refused(tmp_path, change)[0][1]


@pytest.mark.parametrize(
    ("name", "change", "words"),
    [
        ("wu2019_function_smd_dl", ("low: 0.73, high: 1.27", "low: 1.27, high: 0.73"), "1.27"),
        ("luo2019_disease_free_survival", ("low: 0.22", "low: 0.00"), "not above 0"),
        ("luo2019_disease_free_survival", ("low: 0.22", "low: <0.3"), "without '<' or '>'"),
        ("sun2019_nausea_vrs_md", ("sd: 0.85", "sd: 0"), "standard deviation above 0"),
        ("china_ad_rural_generic_iv_random", ("se: 0.00219981", "se: 0"), "not above 0"),
    ],
)
def test_numbers_that_cannot_be_weighted(tmp_path, name, change, words):
    assert any(words in said for _, said in refused(tmp_path, change, text=published(name)))


def test_all_faults_are_told_at_once(tmp_path):
    changes = [("{events: 4, total: 40}", "{events: 44, total: 40}"),
               ("{events: 5, total: 31}", "{events: 35, total: 31}")]  # fmt: skip
    assert [line for line, _ in refused(tmp_path, *changes)] == [7, 9]


@pytest.mark.parametrize(
    ("text", "words"), [("format: 1\nreview: x\n", "the plan of a review"), ("", "empty")]
)
def test_another_file_is_told_for_what_it_is(tmp_path, text, words):
    path = tmp_path / "other.yaml"
    path.write_text(text, encoding="utf-8")
    with pytest.raises(UnreadableError, match=words):
        read_pooling(path)


def test_a_folder_or_nothing_is_told(tmp_path):
    with pytest.raises(UnreadableError, match="a folder, not a file"):
        read_pooling(tmp_path)
    with pytest.raises(UnreadableError, match="no such file"):
        read_pooling(tmp_path / "none.yaml")
