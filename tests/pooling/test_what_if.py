"""A changed count against the same count written into the file, and a study against no file."""

import shutil
from pathlib import Path

import pytest

from evsyn.cells.cell import Question
from evsyn.cells.table import cell_table
from evsyn.extraction.load import read_review
from evsyn.extraction.review import Review
from evsyn.pooling.review import questions
from evsyn.pooling.what_if import (
    LEFT_OUT,
    NOT_OF_THE_PAPER,
    CountChange,
    changed_tables,
    pooled_row,
    strata_untold,
    tables_without,
)

DEMO = Path(__file__).parent.parent.parent / "studies" / "demo"
CAMPION = CountChange("1999-campion", "perforation", 2, 31)


@pytest.fixture(scope="module")
def review() -> Review:
    return read_review(DEMO)


def tables(review: Review, *strata: str) -> list:
    return [cell_table(review, one) for one in questions(review.plan, ["perforation"], strata)]


def counts(table) -> dict[str, tuple[int, int]]:
    return {row.study: (row.events, row.total) for row in table.cells}


def test_a_changed_count_pools_as_the_same_count_in_the_file(
    review: Review, tmp_path: Path
) -> None:
    folder = Path(shutil.copytree(DEMO, tmp_path / "demo"))
    file = folder / "1999-campion.yaml"
    text = file.read_text(encoding="utf-8")
    place = text.index("events: 0", text.index("perforation:"))
    file.write_text(f"{text[:place]}events: 2{text[place + 9 :]}", encoding="utf-8")
    written = tables(read_review(folder), "intent")
    changed = changed_tables(tables(review, "intent"), [CAMPION])
    assert list(map(counts, changed)) == list(map(counts, written))
    assert list(map(counts, changed)) != list(map(counts, tables(review, "intent")))


def test_a_changed_count_says_that_it_is_no_papers(review: Review) -> None:
    (table,) = changed_tables(tables(review), [CAMPION])
    row = pooled_row([table], CAMPION)
    assert row is not None
    assert (row.events, row.total) == (2, 31)
    assert [str(source) for source in row.sources] == [NOT_OF_THE_PAPER]
    others = [one for one in table.cells if one.study != CAMPION.study]
    assert others == [one for one in tables(review)[0].cells if one.study != CAMPION.study]


@pytest.mark.parametrize("name", ["1999-campion", "2013-sorrel"])
def test_a_study_left_out_pools_as_if_its_file_were_not_there(
    review: Review, name: str, tmp_path: Path
) -> None:
    """The second shares patients with a study that is pooled only without it."""
    folder = Path(shutil.copytree(DEMO, tmp_path / "demo"))
    (folder / f"{name}.yaml").unlink()
    for file in folder.glob("[12]*.yaml"):  # an overlap may name only a study that is there
        text = file.read_text(encoding="utf-8")
        if f"study: {name}" in text:
            head, _, rest = text.partition("overlaps:")
            kept = rest.split("\n")[1:]
            while kept and kept[0].startswith((" ", "-")):
                kept.pop(0)
            file.write_text(head + "\n".join(kept), encoding="utf-8")
    less = read_review(folder)
    assert not less.faults
    without = tables_without(review, tables(review, "intent"), [name])
    assert list(map(counts, without)) == list(map(counts, tables(less, "intent")))
    (left,) = [one for one in without[0].left_out if one.study == name]
    assert left.reason == LEFT_OUT


def test_a_count_of_the_whole_says_nothing_of_its_parts(review: Review) -> None:
    parted = CountChange("2000-dogwood", "perforation", 1, 43)
    assert strata_untold(tables(review, "intent"), parted) == ("intent",)
    assert strata_untold(tables(review, "device_generation"), parted) == ()
    with pytest.raises(ValueError, match="not of one pooled count"):
        changed_tables(tables(review, "intent"), [parted])


def test_a_study_that_is_not_pooled_has_no_row_to_change(review: Review) -> None:
    away = CountChange("2010-nettle", "perforation", 1, 54)
    assert pooled_row(tables(review), away) is None
    with pytest.raises(ValueError, match="not of one pooled count"):
        changed_tables(tables(review), [away])
    without = tables_without(review, tables(review), ["2013-sorrel"])
    assert pooled_row(without, away) is not None


@pytest.mark.parametrize(("events", "total"), [(-1, 5), (6, 5), (0, 0)])
def test_impossible_counts_are_refused(events: int, total: int) -> None:
    with pytest.raises(ValueError, match="cannot be a count"):
        CountChange("a", "b", events, total)


def test_questions_of_other_outcomes_stay(review: Review) -> None:
    both = [cell_table(review, Question(name)) for name in ("perforation", "migration")]
    assert changed_tables(both, [CAMPION])[1] == both[1]
