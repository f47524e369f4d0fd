"""Other choices of studies and of ways, against the functions that make each by itself."""

from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from evsyn import pool_proportions
from evsyn.cells.cell import Mark, Question
from evsyn.extraction.load import read_review
from evsyn.pooling.answer import Row
from evsyn.pooling.review import answer_questions
from evsyn.pooling.vary import OVERLAPS_DROPPED, OVERLAPS_KEPT, varied
from evsyn.terms import TextRead
from evsyn.wording.ask_vary import way_rows

DEMO = read_review(Path(__file__).parents[2] / "studies" / "demo")
BASE = answer_questions(DEMO, [Question("perforation")])[Question("perforation")]
FOUND = varied(DEMO, BASE)
SETS = {one.label: one.pooled for one in FOUND.sets}


def test_sets_hold_the_studies_they_say():
    rows = SETS["without assumed totals"].table.cells
    assert rows == tuple(row for row in BASE.table.cells if Mark.ASSUMED not in row.marks)
    read = {study.study: study.extracted.from_ for study in DEMO.studies}
    full = SETS["read from full text only"].table.cells
    assert full
    assert all(read[row.study] is TextRead.FULL_TEXT for row in full)


def test_shared_patients_kept_and_dropped():
    names = {row.study for row in BASE.table.cells}
    kept = {row.study for row in SETS[OVERLAPS_KEPT].table.cells}
    dropped = {row.study for row in SETS[OVERLAPS_DROPPED].table.cells}
    assert kept - names == {"2010-nettle"}
    assert names - dropped == {"2018-zinnia"}


def test_a_set_is_the_pool_of_a_review_with_those_studies():
    label = "read from full text only"
    names = {row.study for row in SETS[label].table.cells}
    fewer = replace(DEMO, studies=tuple(one for one in DEMO.studies if one.study in names))
    fresh = answer_questions(fewer, [Question("perforation")])[Question("perforation")].answer
    assert SETS[label].answer.reading.pooled.estimate == fresh.reading.pooled.estimate


@pytest.mark.parametrize("place", range(8))
def test_ways_are_those_of_the_public_function(place):
    one = FOUND.headlines[place]
    alone = pool_proportions(
        np.array(BASE.answer.events), np.array(BASE.answer.total),
        between=one.between, interval=one.interval,
    )  # fmt: skip
    assert one.value == alone


def test_models_and_scales():
    assert [one.between for one in FOUND.models] == [
        "restricted_ml", "exact", "beta_binomial", "exact",
    ]  # fmt: skip
    profiled = FOUND.models[-1].value
    exact = BASE.answer.rows[Row.EXACT]
    assert profiled.estimate == exact.estimate
    assert (profiled.low, profiled.high) != (exact.low, exact.high)
    by_scale = {one.scale: one.value for one in FOUND.scales}
    assert by_scale["raw"] is None  # studies at 0%
    assert by_scale["arcsine"].estimate < BASE.answer.rows[Row.HEADLINE].estimate


def test_the_headline_is_named_by_the_estimator_of_the_plan():
    """A plan may ask for restricted ML: then that of most papers is one of the other ways."""
    plan = DEMO.plan.model_copy(
        update={"pooling": DEMO.plan.pooling.model_copy(update={"between": "restricted_ml"})}
    )
    review = replace(DEMO, plan=plan)
    question = Question("perforation")
    found = varied(review, answer_questions(review, [question])[question])
    ways = [(one.between, one.interval) for one in found.headlines]
    assert ways[0] == ("dersimonian_laird", "ordinary")
    assert ("restricted_ml", "ordinary") not in ways
    assert found.headlines[0].value.estimate == BASE.answer.rows[Row.HEADLINE].estimate
    assert next(way_rows(found))[0] == "restricted ML, ordinary interval (headline)"


def test_what_is_not_pooled_has_no_other_answer():
    question = Question("reobstruction")
    found = varied(DEMO, answer_questions(DEMO, [question])[question])
    assert (found.sets, found.headlines, found.models, found.scales) == ((), (), (), ())
