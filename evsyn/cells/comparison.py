"""Build the evidence table of a comparison: two treatments, counted within one study."""

from collections.abc import Callable
from dataclasses import dataclass

from evsyn.cells.cell import Cell, LeftOut, Mark, Question
from evsyn.cells.table import left_out_cell, study_row
from evsyn.extraction.review import Review
from evsyn.extraction.study import Arm, Study
from evsyn.terms import Source


@dataclass(frozen=True, slots=True)
class ComparisonCell:
    """One study's row in a comparison: the same outcome under two treatments.

    Parameters
    ----------
    first, second : Cell
        The count under each treatment.
    """

    first: Cell
    second: Cell

    @property
    def study(self) -> str:
        """Name of the study."""
        return self.first.study

    @property
    def label(self) -> str:
        """Short label for tables."""
        return self.first.label

    @property
    def marks(self) -> frozenset[Mark]:
        """Marks of either side."""
        return self.first.marks | self.second.marks

    @property
    def sources(self) -> tuple[Source, ...]:
        """Every place the counts came from, the first treatment's before the second's."""
        return (*self.first.sources, *self.second.sources)


@dataclass(frozen=True, slots=True)
class ComparisonTable:
    """All rows of one comparison, and what was left out of it."""

    comparison: str
    outcome: str
    cells: tuple[ComparisonCell, ...]
    left_out: tuple[LeftOut, ...] = ()

    @property
    def key(self) -> str:
        """One word for files and JSON, as ``morbidity/stent_against_surgery``."""
        return f"{self.outcome}/{self.comparison}"


def comparison_table(review: Review, comparison: str, outcome: str) -> ComparisonTable:
    """Gather the studies that count an outcome under both treatments.

    A study enters only if both sides are counted over the same kind of denominator and in the
    same window; a side that stands alone is left out, with the reason.

    Parameters
    ----------
    review : Review
        A review without faults.
    comparison, outcome : str
        A comparison and an outcome of the plan.
    """
    declared = review.plan.comparisons[comparison]
    words = review.plan.treatments
    cells: list[ComparisonCell] = []
    left_out: list[LeftOut] = []
    for study in review.studies:
        first, dropped_first = _side(review, study, outcome, declared.first)
        second, dropped_second = _side(review, study, outcome, declared.second)
        left_out += [*dropped_first, *dropped_second]
        if first is None and second is None:
            continue
        if first is None or second is None:
            held, missing = (second, declared.first) if first is None else (first, declared.second)
            if held is not None:
                left_out.append(left_out_cell(held, f"no count under {words[missing]}"))
            continue
        unlike = _unlike(first, second)
        if unlike:
            left_out.append(left_out_cell(first, unlike))
            left_out.append(left_out_cell(second, unlike))
            continue
        cells.append(ComparisonCell(first, second))
    return ComparisonTable(comparison, outcome, tuple(cells), tuple(left_out))


def _side(
    review: Review, study: Study, outcome: str, treatment: str
) -> tuple[Cell | None, list[LeftOut]]:
    return study_row(study, Question(outcome), review.plan, _under(treatment))


def _under(treatment: str) -> Callable[[Arm], bool]:
    def belongs(arm: Arm) -> bool:
        return arm.treatment == treatment

    return belongs


def _unlike(first: Cell, second: Cell) -> str:
    """Say how the two sides are counted differently; empty where they are alike."""
    if first.basis != second.basis:
        return "the two treatments are counted over different denominators"
    if first.window != second.window:
        return "the two treatments are counted in different windows"
    return ""
