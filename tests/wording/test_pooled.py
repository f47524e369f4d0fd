"""The sentence at each number of studies: golden, in one table, for a reader to judge."""

from dataclasses import replace

import numpy as np
import pytest

from evsyn.cells.cell import Cell, CellTable, Question
from evsyn.pooling.choose import answer_tables
from evsyn.pooling.tables import PooledTable
from evsyn.wording.pooled import (
    disagreement_sentence,
    pooled_sentence,
    reading_sentence,
    too_wide_to_quote,
    values_without_summary,
)


def pooled(*counts: tuple[int, int], refused: bool = False) -> PooledTable:
    cells = tuple(
        Cell(f"s{n}", f"Study {n}", 2000 + n, x, total, "attempted", "30_days", frozenset(), ())
        for n, (x, total) in enumerate(counts, 1)
    )
    table = CellTable(Question("perforation"), cells)
    (answer,) = answer_tables(
        [table],
        between="dersimonian_laird",
        level=0.95,
        refused={"perforation"} if refused else (),
    )
    return PooledTable(table, answer)


GOLDEN = {
    "k = 0": ((), "Perforation, palliation: no study here reports it."),
    "k = 1": (
        ((4, 52),),
        "Perforation, palliation: one study, Study 1 4 of 52 (7.7%; exact 95% interval 2.1% to "
        "18.5%). One study is not a pool.",
    ),
    "k = 1, none": (
        ((0, 20),),
        "Perforation, palliation: one study, Study 1 0 of 20 (0.0%; exact 95% interval 0.0% to "
        "16.8%). Rates up to 13.9% remain possible (one-sided 95%). One study is not a pool.",
    ),
    "k = 2": (
        ((4, 52), (1, 30)),
        "Perforation, palliation: two studies, Study 1 4 of 52 (7.7%) and Study 2 1 of 30 (3.3%); "
        "together 5 of 82 (6.1%; exact 95% interval 2.0% to 13.7%) only if both share one true "
        "rate. Two studies say nothing about spread.",
    ),
    "all zero": (
        ((0, 20), (0, 33), (0, 15), (0, 41)),
        "Perforation, palliation: none, 0 of 109 in 4 studies. Rates up to 2.7% remain possible "
        "(one-sided 95%) if all share one true rate; the spread between studies cannot be "
        "estimated.",
    ),
    "all full": (
        ((20, 20), (33, 33), (15, 15)),
        "Perforation, palliation: in all, 68 of 68 in 3 studies. Rates down to 95.7% remain "
        "possible (one-sided 95%) if all share one true rate; the spread between studies cannot be "
        "estimated.",
    ),
    "k = 4": (
        ((4, 52), (1, 30), (2, 61), (6, 48)),
        "Perforation, palliation: a typical setting sees 6.7% (2.5% to 16.6%), 13 of 191 in 4 "
        "studies, by the exact binomial-normal model; DerSimonian-Laird, which most papers use, "
        "gives 7.4% (3.9% to 13.5%). Only 4 studies: how far settings differ is all but unknown, "
        "and a range for a new one would be unreliable.",
    ),
}


@pytest.mark.parametrize("case", GOLDEN)
def test_sentence_at_each_number_of_studies(case: str) -> None:
    counts, expected = GOLDEN[case]
    said = pooled_sentence(pooled(*counts), event="perforation", group="palliation")
    assert said == expected


def test_five_to_nine_studies_call_the_spread_a_rough_guess() -> None:
    said = pooled_sentence(
        pooled((4, 52), (1, 30), (2, 61), (6, 48), (3, 90)), event="perforation", group=""
    )
    assert "With 5 studies that spread is a rough guess." in said
    assert "An ordinary new setting" not in said
    assert "95% range for an ordinary new setting is" in said


def test_ten_studies_drop_that_warning() -> None:
    counts = [(4, 52), (1, 30), (2, 61), (6, 48), (3, 90)] * 2
    said = pooled_sentence(pooled(*counts), event="perforation", group="")
    assert "rough guess" not in said


def test_a_refused_pool_gives_counts_and_the_plans_reason() -> None:
    said = pooled_sentence(
        pooled((45, 52), (19, 26), (48, 53), refused=True),
        event="stoma avoidance",
        group="",
        refused="the bases differ",
    )
    assert said.startswith("Stoma avoidance: 3 studies; counts only, not pooled: from 73")
    assert said.endswith(", median 86.5%. The bases differ.")


@pytest.mark.parametrize(
    ("counts", "values"),
    [
        (((3, 12),), "25.0% (3 of 12, A)"),
        (((3, 12), (1, 10)), "from 10.0% (1 of 10, B) to 25.0% (3 of 12, A)"),
        (
            ((3, 12), (1, 10), (2, 10), (3, 10)),
            "from 10.0% (1 of 10, B) to 30.0% (3 of 10, D), median 22.5%",
        ),
    ],
)
def test_without_a_summary_the_ends_and_the_median_are_told(counts, values) -> None:
    found = pooled(*counts, refused=True)
    named = tuple(
        replace(cell, label=name) for cell, name in zip(found.table.cells, "ABCD", strict=False)
    )
    found = replace(found, table=replace(found.table, cells=named))
    assert values_without_summary(found) == values


def test_both_rows_stand_in_the_sentence_where_the_headline_is_not_read() -> None:
    answer = pooled((4, 52), (1, 30), (2, 61), (6, 48), (3, 90))
    said = pooled_sentence(answer, event="perforation", group="")
    assert "by the exact binomial-normal model" in said
    assert "DerSimonian-Laird, which most papers use, gives" in said


def test_reading_names_every_trigger_that_fired() -> None:
    said = reading_sentence(pooled((4, 52), (1, 130), (2, 161), (6, 148), (3, 90)).answer)
    assert said == (
        "Read the exact binomial-normal model: a study has fewer than 5 events or fewer than 5 "
        "non-events; fewer than 20 events or non-events in all; the crude total is below 5% or "
        "above 95%."
    )


def test_rows_that_agree_say_nothing() -> None:
    rng = np.random.default_rng(20)
    counts = [(int(x), 200) for x in rng.binomial(200, 0.5, 12)]
    assert disagreement_sentence(pooled(*counts).answer) == ""


def test_an_interval_of_more_than_half_of_all_rates_is_too_wide_to_quote() -> None:
    few = pooled((0, 100), (9, 60), (0, 80), (0, 300), (1, 130)).answer
    assert few.reading is not None
    width = few.reading.pooled.high - few.reading.pooled.low
    for high, is_wide in ((0.50, False), (0.51, True)):
        row = replace(few.reading.pooled, low=0.0, high=high)
        answer = replace(few, reading=replace(few.reading, pooled=row))
        assert too_wide_to_quote(answer) is is_wide
        table = pooled((4, 52)).table
        said = pooled_sentence(PooledTable(table, answer), event="perforation", group="")
        assert ("too wide to quote" in said) is is_wide
    assert too_wide_to_quote(few) is (width > 0.5)
    assert not too_wide_to_quote(pooled((4, 52)).answer)


def test_no_sentence_uses_a_forbidden_word() -> None:
    said = " ".join(
        pooled_sentence(pooled(*counts), event="perforation", group="")
        for counts, _ in GOLDEN.values()
    ).lower()
    for word in ("significant", "safe", "outlier", "acceptable", "standard", "systematic"):
        assert word not in said
