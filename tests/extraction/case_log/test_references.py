"""One reference is one case."""

import pytest

from tests.extraction.case_log.made_up import ROWS, table


def doubts(made):
    return [one for one in made.found() if one.severity == "doubt"]


def with_references(made, *references):
    return made.write(table(*(f"{ROWS[0][: -len(',a,no')]},{one},no" for one in references)))


def test_the_same_reference_twice_is_a_doubt(made):
    (found,) = doubts(with_references(made, "S 1", "s2", "S-2", "S3"))
    assert found.message == "rows 4 and 5 have the same reference, 's2'"
    assert str(found.source) == "log.csv, line 5"
    assert len(made.read().cases) == 4


@pytest.mark.parametrize("references", [("S1", "S2"), ("", ""), ("S1", "")])
def test_unlike_and_empty_ones_are_none(made, references):
    assert doubts(with_references(made, *references)) == []
