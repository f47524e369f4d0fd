"""Answer the questions a plan asks of a review."""

from collections.abc import Iterable, Sequence

from evsyn.cells.cell import CellTable, Question
from evsyn.cells.comparison import comparison_table
from evsyn.cells.levels import level_names
from evsyn.cells.table import cell_table
from evsyn.extraction.plan import Plan
from evsyn.extraction.review import Review
from evsyn.pooling.choose import answer_tables
from evsyn.pooling.compared import ComparisonAnswer, answer_comparison
from evsyn.pooling.tables import PooledTable
from evsyn.terms import UNPLACED

Answers = dict[Question, PooledTable]


def questions(
    plan: Plan,
    outcomes: Iterable[str] | None = None,
    strata: Iterable[str] | None = None,
) -> tuple[Question, ...]:
    """List the questions of a plan: each outcome over all studies, then by level.

    Parameters
    ----------
    plan : Plan
        The plan.
    outcomes, strata : iterable of str, optional
        Only these; all of the plan's by default.
    """
    listed: list[Question] = []
    for outcome in plan.outcomes if outcomes is None else outcomes:
        listed.append(Question(outcome))
        for stratum in plan.strata if strata is None else strata:
            levels = level_names(plan.strata[stratum])
            listed += [Question(outcome, stratum, level) for level in levels]
    return tuple(listed)


def answer_questions(
    review: Review, asked: Sequence[Question], *, without: Iterable[str] = ()
) -> Answers:
    """Gather and pool every question asked, in one call of the engine.

    Parameters
    ----------
    review : Review
        A review without faults.
    asked : sequence of Question
        What to answer.
    without : iterable of str
        Studies to leave out, as a unit's own series.
    """
    skipped = tuple(without)
    return answer_cell_tables(
        review, [cell_table(review, question, without=skipped) for question in asked]
    )


def answer_cell_tables(review: Review, tables: Sequence[CellTable]) -> Answers:
    """Pool evidence tables already gathered."""
    plan = review.plan
    answers = answer_tables(
        tables,
        between=plan.pooling.between,
        level=plan.pooling.level,
        refused={name for name, outcome in plan.outcomes.items() if outcome.do_not_pool},
    )
    return {
        table.question: PooledTable(table, answer)
        for table, answer in zip(tables, answers, strict=True)
    }


def group_label(plan: Plan, question: Question, *, cut_year: int | None = None) -> str:
    """Return the level in the plan's words; empty for all studies.

    Of a crossed question, as ``through the scope, palliation``; there a gathering level names its
    stratum, as ``through the scope, intent mixed or not stated``.
    """
    told = []
    for stratum, level in question.places:
        declared = plan.strata[stratum]
        words = level_names(declared, cut_year)[level]
        is_vague = level == UNPLACED and bool(question.also)
        told.append(f"{declared.label.lower()} {words}" if is_vague else words)
    return ", ".join(told)


def answer_comparisons(review: Review, outcomes: Iterable[str]) -> tuple[ComparisonAnswer, ...]:
    """Answer every comparison of the plan for some outcomes, where a study counts both sides.

    Parameters
    ----------
    review : Review
        A review without faults.
    outcomes : iterable of str
        Outcomes of the plan.
    """
    plan = review.plan
    answers = []
    for outcome in outcomes:
        for name, declared in plan.comparisons.items():
            table = comparison_table(review, name, outcome)
            if not table.cells and not table.left_out:
                continue
            answers.append(
                answer_comparison(
                    table,
                    contrast=declared.contrast,
                    better=str(plan.outcomes[outcome].better),
                    between=plan.pooling.between,
                    level=plan.pooling.level,
                    assumed_risks=plan.outcomes[outcome].assumed_risks,
                    refused=plan.outcomes[outcome].do_not_pool is not None,
                )
            )
    return tuple(answers)
