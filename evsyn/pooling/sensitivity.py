"""The same question asked of fewer studies: does the answer hang on the doubtful counts?"""

from dataclasses import dataclass, replace

from evsyn.cells.cell import Cell, CellTable, Mark, Question
from evsyn.cells.levels import level_names
from evsyn.cells.table import cell_table
from evsyn.extraction.plan import EraStratum
from evsyn.extraction.review import Review
from evsyn.pooling.review import answer_cell_tables
from evsyn.pooling.tables import PooledTable
from evsyn.terms import TextRead

#: Sets of marks whose studies are left out, each with its words.
WITHOUT = (
    (
        "at the wanted denominator and window",
        (
            Mark.OTHER_BASIS,
            Mark.OTHER_WINDOW,
            Mark.BASIS_NOT_STATED,
            Mark.WINDOW_NOT_STATED,
        ),
    ),
    ("without other denominators and windows", (Mark.OTHER_BASIS, Mark.OTHER_WINDOW)),
    (
        "denominator and window both stated",
        (Mark.BASIS_NOT_STATED, Mark.WINDOW_NOT_STATED),
    ),
    ("without assumed totals", (Mark.ASSUMED,)),
    ("without derived counts", (Mark.DERIVED,)),
    ("without partly reported studies", (Mark.PARTIAL,)),
    ("without per-procedure counts", (Mark.PER_PROCEDURE,)),
)
FULL_TEXT_ONLY = "read from full text only"


@dataclass(frozen=True, slots=True)
class Variant:
    """One smaller set of studies, with its answer."""

    label: str
    pooled: PooledTable


def sensitivity(review: Review, pooled: PooledTable) -> tuple[Variant, ...]:
    """Pool each smaller set that differs from the whole.

    Parameters
    ----------
    review : Review
        The review.
    pooled : PooledTable
        The whole answer.

    Returns
    -------
    tuple of Variant
        Sets that leave out at least one study, were it all of them; none where nothing is pooled.
    """
    if not pooled.answer.show.pooled:
        return ()
    read = {study.study: study.extracted.from_ for study in review.studies}
    sets = [(label, _free_of(pooled.table, frozenset(marks))) for label, marks in WITHOUT]
    full = [c for c in pooled.table.cells if read[c.study] is TextRead.FULL_TEXT]
    sets.append((FULL_TEXT_ONLY, tuple(full)))
    changed = [(label, cells) for label, cells in sets if len(cells) < pooled.table.k]
    variants = []
    for label, cells in changed:
        table = replace(pooled.table, cells=cells, left_out=())
        (answered,) = answer_cell_tables(review, [table]).values()
        variants.append(Variant(label, answered))
    return tuple(variants)


def shifted_eras(review: Review, outcome: str, stratum: str) -> dict[int, tuple[PooledTable, ...]]:
    """Repeat an answer by era with the cut some years earlier and later.

    Parameters
    ----------
    review : Review
        The review.
    outcome, stratum : str
        An outcome, and an era stratum of the plan.

    Returns
    -------
    dict
        Answers by level, for the earlier and the later cut year.
    """
    era = review.plan.strata[stratum]
    if not isinstance(era, EraStratum):
        return {}
    shifted = {}
    for cut in (era.cut_year - era.shift, era.cut_year + era.shift):
        tables = [
            cell_table(review, Question(outcome, stratum, level), cut_year=cut)
            for level in level_names(era, cut)
        ]
        shifted[cut] = tuple(answer_cell_tables(review, tables).values())
    return shifted


def _free_of(table: CellTable, marks: frozenset[Mark]) -> tuple[Cell, ...]:
    return tuple(cell for cell in table.cells if not cell.marks & marks)
