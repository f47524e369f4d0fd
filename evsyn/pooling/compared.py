"""The whole answer to one comparison: rows side by side, and the one to read."""

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

from evsyn.cells.comparison import ComparisonTable
from evsyn.effects.absolute import AbsoluteEffect, absolute_effect
from evsyn.pooling.comparison_choice import ComparisonChoice, ComparisonRow, choose_comparison_row
from evsyn.pooling.comparisons import pool_comparisons
from evsyn.pooling.result import Pooled, Status

LEAST_TO_POOL = 3
DIFFERENCE = "risk_difference"


class Contrasted(StrEnum):
    """Rows a comparison may hold."""

    HEADLINE = "headline"
    RESTRICTED_ML = "restricted_ml"
    MANTEL_HAENSZEL = "mantel_haenszel"
    PETO = "peto"
    EXACT = "exact"


@dataclass(frozen=True, slots=True)
class ComparisonAnswer:
    """Everything pooled about one comparison.

    Parameters
    ----------
    table : ComparisonTable
        The evidence.
    contrast : str
        Contrast of the headline row.
    effects : tuple of Pooled
        Each study's own effect on that contrast; ``not_estimable`` where no ratio exists.
    rows : dict
        Pooled rows by name; empty below three informative studies, or where there is no ratio.
    choice : ComparisonChoice or None
        Which row is read, and why; ``None`` where the plan forbids pooling.
    reading : Contrasted or None
        The row to read.
    absolute : tuple of AbsoluteEffect
        What the row to read means at the plan's assumed risks.
    """

    table: ComparisonTable
    contrast: str
    effects: tuple[Pooled, ...]
    rows: dict[Contrasted, Pooled]
    choice: ComparisonChoice | None
    reading: Contrasted | None
    absolute: tuple[AbsoluteEffect, ...]

    @property
    def k(self) -> int:
        """Number of studies."""
        return len(self.table.cells)


def answer_comparison(
    table: ComparisonTable,
    *,
    contrast: str,
    better: str,
    between: str,
    level: float,
    assumed_risks: Sequence[float] = (),
    refused: bool = False,
) -> ComparisonAnswer:
    """Pool a comparison by every row that applies, and choose the one to read.

    Parameters
    ----------
    table : ComparisonTable
        The evidence.
    contrast : str
        ``risk_ratio``, ``odds_ratio`` or ``risk_difference``: that of the headline row.
    better : str
        ``fewer`` or ``more``: which way is good.
    between : str
        Between-study estimator of the headline row.
    level : float
        Two-sided level of every interval.
    assumed_risks : sequence of float
        Risks under the second treatment at which absolute effects are stated.
    refused : bool
        Whether the plan forbids pooling this outcome.
    """
    counts = _counts(table)
    effects = tuple(
        pool_comparisons(*([one] for one in row), contrast=contrast, level=level)
        for row in zip(*counts, strict=True)
    )
    if refused or len(table.cells) < LEAST_TO_POOL:
        return ComparisonAnswer(table, contrast, effects, {}, None, None, ())
    choice = choose_comparison_row(*counts, contrast=contrast)
    if choice.row is None:
        return ComparisonAnswer(table, contrast, effects, {}, choice, None, ())
    rows = _rows(counts, choice, contrast=contrast, between=between, level=level)
    reading: Contrasted | None = Contrasted(str(choice.row))
    if rows[Contrasted(str(choice.row))].status is not Status.POOLED:
        reading = None
    return ComparisonAnswer(
        table=table,
        contrast=contrast,
        effects=effects,
        rows=rows,
        choice=choice,
        reading=reading,
        absolute=_absolute(reading, rows, contrast, better, assumed_risks),
    )


def _counts(table: ComparisonTable) -> tuple[list[int], list[int], list[int], list[int]]:
    first = [cell.first for cell in table.cells]
    second = [cell.second for cell in table.cells]
    return (
        [cell.events for cell in first],
        [cell.total for cell in first],
        [cell.events for cell in second],
        [cell.total for cell in second],
    )


def _rows(
    counts: tuple[list[int], list[int], list[int], list[int]],
    choice: ComparisonChoice,
    *,
    contrast: str,
    between: str,
    level: float,
) -> dict[Contrasted, Pooled]:
    """Pool by each row; Peto's only where its conditions hold."""
    rows = {
        Contrasted.HEADLINE: pool_comparisons(
            *counts, contrast=contrast, between=between, level=level
        ),
        Contrasted.RESTRICTED_ML: pool_comparisons(
            *counts,
            contrast=contrast,
            between="restricted_ml",
            interval="hartung_knapp_floor",
            level=level,
        ),
        Contrasted.MANTEL_HAENSZEL: pool_comparisons(
            *counts,
            contrast="odds_ratio" if choice.row is ComparisonRow.MANTEL_HAENSZEL else contrast,
            model="mantel_haenszel",
            level=level,
        ),
    }
    if not choice.peto_limits:
        rows[Contrasted.PETO] = pool_comparisons(
            *counts, contrast="peto", model="common", level=level
        )
    rows[Contrasted.EXACT] = pool_comparisons(
        *counts, contrast="odds_ratio", model="exact", level=level
    )
    return rows


def _absolute(
    reading: Contrasted | None,
    rows: dict[Contrasted, Pooled],
    contrast: str,
    better: str,
    risks: Sequence[float],
) -> tuple[AbsoluteEffect, ...]:
    if reading is None or contrast == DIFFERENCE:
        return ()
    row = rows[reading]
    scale = "odds_ratio" if reading is Contrasted.MANTEL_HAENSZEL else contrast
    return tuple(
        absolute_effect(
            row.estimate, row.low, row.high, baseline=risk, contrast=scale, better=better
        )
        for risk in risks
    )
