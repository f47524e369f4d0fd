"""Smaller sets of studies, and eras with the cut moved, on the demo review."""

from pathlib import Path

import pytest

from evsyn.cells.cell import Mark, Question
from evsyn.extraction.load import read_review
from evsyn.extraction.review import Review
from evsyn.pooling.review import answer_questions
from evsyn.pooling.sensitivity import FULL_TEXT_ONLY, sensitivity, shifted_eras
from evsyn.terms import TextRead

DEMO = Path(__file__).parent.parent.parent / "studies" / "demo"


@pytest.fixture(scope="module")
def review() -> Review:
    return read_review(DEMO)


def test_each_variant_leaves_out_just_the_marked_studies(review: Review) -> None:
    (pooled,) = answer_questions(review, [Question("perforation")]).values()
    found = {variant.label: variant.pooled for variant in sensitivity(review, pooled)}
    without = found["without assumed totals"].table.cells
    expected = tuple(c for c in pooled.table.cells if Mark.ASSUMED not in c.marks)
    assert without == expected
    assert len(expected) < pooled.table.k


def test_full_text_only_keeps_what_was_read_in_full(review: Review) -> None:
    (pooled,) = answer_questions(review, [Question("perforation")]).values()
    found = {variant.label: variant.pooled for variant in sensitivity(review, pooled)}
    for cell in found[FULL_TEXT_ONLY].table.cells:
        study = review.study(cell.study)
        assert study is not None
        assert study.extracted.from_ is TextRead.FULL_TEXT


def test_sets_that_change_nothing_are_not_shown(review: Review) -> None:
    (pooled,) = answer_questions(review, [Question("technical_success")]).values()
    for variant in sensitivity(review, pooled):
        assert variant.pooled.table.k < pooled.table.k


def test_the_wanted_set_holds_nothing_off_target_nor_unstated(review: Review) -> None:
    (pooled,) = answer_questions(review, [Question("perforation")]).values()
    found = {variant.label: variant.pooled for variant in sensitivity(review, pooled)}
    cells = found["at the wanted denominator and window"].table.cells
    assert {(cell.basis, cell.window) for cell in cells} == {("attempted", "30_days")}


def test_an_empty_wanted_set_is_shown_as_empty() -> None:
    published = read_review(DEMO.parent / "published")
    (pooled,) = answer_questions(published, [Question("perforation")]).values()
    found = {variant.label: variant.pooled for variant in sensitivity(published, pooled)}
    assert found["at the wanted denominator and window"].table.k == 0


def test_nothing_is_varied_where_nothing_is_pooled(review: Review) -> None:
    (pooled,) = answer_questions(review, [Question("reobstruction")]).values()
    assert sensitivity(review, pooled) == ()


def test_eras_are_repeated_either_side_of_the_cut(review: Review) -> None:
    found = shifted_eras(review, "perforation", "era")
    assert sorted(found) == [2006, 2010]
    early = {cut: answered[0].table.k for cut, answered in found.items()}
    assert early[2006] < early[2010]


def test_a_labelled_stratum_has_no_cut_to_move(review: Review) -> None:
    assert shifted_eras(review, "perforation", "intent") == {}
