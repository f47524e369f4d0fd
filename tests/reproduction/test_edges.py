"""Rows at the edge of what can be pooled: told, never a traceback or a warning."""

import pytest

from evsyn.reproduction.verdict import Verdict, reproduce
from evsyn.wording.reproduce import misfits_sentence, verdict_sentence
from tests.reproduction.builders import published, typed

HEAD = "format: 1\npooling: edge\nabout: Invented\ninvented: true\nmeasure: {}\nrows:\n"
NO_EVENT = "  - {study: A, first: {events: 0, total: 20}, second: {events: 0, total: 20}}\n"
NO_EVENT += "  - {study: B, first: {events: 0, total: 30}, second: {events: 0, total: 25}}\n"
NONE = "  - {study: A, events: 0, total: 20}\n  - {study: B, events: 0, total: 33}\n"
PRINT = "printed:\n  overall: {estimate: 0.5, low: 0.4, high: 0.6, df: 1, prediction_low: 0.1}\n"


@pytest.mark.parametrize(
    ("measure", "rows"),
    [("odds ratio", NO_EVENT), ("risk ratio", NO_EVENT), ("risk difference", NO_EVENT),
     ("proportion", NONE), ("proportion", NONE.replace("0, total", "9, total")
      .replace("20", "9").replace("33", "9"))],
)  # fmt: skip
def test_studies_without_an_event_or_with_events_only(tmp_path, measure, rows):
    found = reproduce(typed(tmp_path, text=HEAD.format(measure) + rows + PRINT))
    assert found.verdict is Verdict.NOT
    assert "not as printed" in misfits_sentence(found, ["A", "B"]).lower()


def test_numbers_that_fit_one_by_one_are_not_a_reproduction(tmp_path):
    # Moved within their rounding the rows reach P 0.9 (a value far from the one they give) and the
    # printed limits, but not both.
    text = published("li2018_transfusion_rd_dl")
    found = reproduce(typed(tmp_path, ("p_effect: 0.048", "p_effect: 0.012"), text=text))
    assert found.verdict is Verdict.SINGLY
    assert verdict_sentence(found).startswith("Not reproduced as a whole")


def test_a_group_of_one_row_and_rows_without_a_group(tmp_path):
    text = published("huang2018_cornea_or_mh_subgroups")
    found = reproduce(typed(tmp_path, (", group: ulcer, first", ", first"),
                            ("    - {group: ulcer, estimate: 0.31, low: 0.03, high: 3.17, z: 0.98, "
                             "p_effect: 0.33}\n", ""),
                            ("  between_groups: {q: 1.96, df: 3, p: 0.58, i2: 0}\n", ""),
                            text=text))  # fmt: skip
    assert found.verdict is Verdict.REPRODUCED


def test_a_study_so_imprecise_that_a_limit_is_endless(tmp_path):
    rows = "  - {study: A, estimate: 1.2, low: 0.9, high: 1.6}\n"
    rows += "  - {study: B, estimate: 2.0, low: 0.00000001, high: 999999999999}\n"
    text = HEAD.format("hazard ratio") + rows + PRINT
    found = reproduce(typed(tmp_path, text=text))
    assert found.verdict is Verdict.NOT
    assert "limits-uneven" in [finding.rule for finding in found.findings]


def test_limits_that_no_one_set_of_rows_gives_do_not_count_as_the_pooled_value(tmp_path):
    # The middle of -0.214 and -0.001 is -0.108, for whatever rows: -0.12 cannot go with them,
    # though by itself it lies within reach. Q is out of reach by itself.
    changes = ("estimate: -0.108", "estimate: -0.120"), ("q: 14.87", "q: 99")
    found = reproduce(typed(tmp_path, *changes, text=published("li2018_transfusion_rd_dl")))
    assert found.verdict is Verdict.NOT


def test_a_misprint_beside_limits_that_hold_is_the_exception(tmp_path):
    text = published("li2018_transfusion_rd_dl")
    found = reproduce(typed(tmp_path, ("q: 14.87", "q: 99"), text=text))
    assert found.verdict is Verdict.EXCEPT
    assert [check.item.place[-1] for check in found.best[0].misfits] == ["q"]
