"""Would another choice change the answer: other studies, other estimators, other scales."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

import numpy as np

from evsyn.cells.cell import CellTable
from evsyn.cells.table import cell_table
from evsyn.extraction.review import Review
from evsyn.pooling.answer import Row
from evsyn.pooling.functions import pool_proportions
from evsyn.pooling.reading import profile_interval
from evsyn.pooling.result import Pooled, Status
from evsyn.pooling.review import answer_cell_tables
from evsyn.pooling.sensitivity import sensitivity
from evsyn.pooling.tables import PooledTable

#: How the headline may be made on the same scale: estimator and interval. The plan's own, which is
#: one of these with the ordinary interval, is left out where it stands.
HEADLINES = (
    ("dersimonian_laird", "ordinary"),
    ("restricted_ml", "ordinary"),
    ("paule_mandel", "ordinary"),
    ("ml", "ordinary"),
    ("hedges_olkin", "ordinary"),
    ("sidik_jonkman", "ordinary"),
    ("dersimonian_laird", "hartung_knapp"),
    ("dersimonian_laird", "hartung_knapp_floor"),
    ("restricted_ml", "hartung_knapp"),
)
#: Scales that are offered to match what is printed elsewhere, and never read.
PRINT_SCALES = ("arcsine", "freeman_tukey", "freeman_tukey_mean", "raw")
OVERLAPS_KEPT = "with studies that share patients kept"
OVERLAPS_DROPPED = "without studies that may share patients"


@dataclass(frozen=True, slots=True)
class OtherSet:
    """The same question asked of another set of studies."""

    label: str
    pooled: PooledTable


@dataclass(frozen=True, slots=True)
class OtherWay:
    """The same studies pooled another way.

    Parameters
    ----------
    between, interval, scale : str
        How, by public names; for a model of counts ``between`` names the model.
    value : Pooled or None
        The answer; ``None`` where it cannot be made.
    """

    between: str
    interval: str
    scale: str
    value: Pooled | None


@dataclass(frozen=True, slots=True)
class Varied:
    """One pool with what other choices would give.

    Parameters
    ----------
    base : PooledTable
        The pool as it stands.
    sets : tuple of OtherSet
        Other sets of studies; only those that differ from the pool's.
    headlines, models, scales : tuple of OtherWay
        The headline made otherwise on log-odds; models of the counts; other scales.
    """

    base: PooledTable
    sets: tuple[OtherSet, ...]
    headlines: tuple[OtherWay, ...]
    models: tuple[OtherWay, ...]
    scales: tuple[OtherWay, ...]


def varied(review: Review, base: PooledTable) -> Varied:
    """Answer a pool by other choices of studies, estimators, models and scales.

    Parameters
    ----------
    review : Review
        The review.
    base : PooledTable
        The pool as it stands.

    Returns
    -------
    Varied
        Empty beside the pool where nothing is pooled.
    """
    if not base.answer.show.pooled:
        return Varied(base, (), (), (), ())
    level, own = review.plan.pooling.level, (review.plan.pooling.between, "ordinary")
    return Varied(
        base,
        (
            *(OtherSet(one.label, one.pooled) for one in sensitivity(review, base)),
            *_other_overlaps(review, base),
        ),
        tuple(_way(base, *pair, "logit", level) for pair in HEADLINES if pair != own),
        tuple(_models(base, level)),
        tuple(_way(base, "dersimonian_laird", "ordinary", s, level) for s in PRINT_SCALES),
    )


def _other_overlaps(review: Review, base: PooledTable) -> Iterator[OtherSet]:
    """Yield the pool with shared patients kept, and with studies that may share some out."""
    tables = {
        OVERLAPS_KEPT: cell_table(_without_overlaps(review), base.table.question),
        OVERLAPS_DROPPED: cell_table(_all_overlaps_certain(review), base.table.question),
    }
    other = {label: table for label, table in tables.items() if _differs(table, base.table)}
    for label, table in other.items():
        (pooled,) = answer_cell_tables(review, [replace(table, left_out=())]).values()
        yield OtherSet(label, pooled)


def _differs(one: CellTable, other: CellTable) -> bool:
    return one.cells != other.cells


def _without_overlaps(review: Review) -> Review:
    studies = tuple(study.model_copy(update={"overlaps": []}) for study in review.studies)
    return replace(review, studies=studies)


def _all_overlaps_certain(review: Review) -> Review:
    certain = {
        study.study: [one.model_copy(update={"kind": "certain"}) for one in study.overlaps]
        for study in review.studies
    }
    studies = tuple(
        study.model_copy(update={"overlaps": certain[study.study]}) for study in review.studies
    )
    return replace(review, studies=studies)


def _way(base: PooledTable, between: str, interval: str, scale: str, level: float) -> OtherWay:
    events, total = np.array(base.answer.events), np.array(base.answer.total)
    try:
        value = pool_proportions(
            events, total, scale=scale, between=between, interval=interval, level=level
        )
    except ValueError:
        # The raw scale gives a study at 0% or 100% no variance.
        return OtherWay(between, interval, scale, None)
    return OtherWay(between, interval, scale, value if value.status is Status.POOLED else None)


def _models(base: PooledTable, level: float) -> Iterator[OtherWay]:
    for row in (Row.RESTRICTED_ML, Row.EXACT, Row.BETA_BINOMIAL):
        value = base.answer.rows.get(row)
        if value is not None and value.status is Status.POOLED:
            yield OtherWay(str(row), "", "logit", value)
    found = profile_interval(base.answer, level=level)
    exact = base.answer.rows.get(Row.EXACT)
    if found is not None and exact is not None:
        profiled = replace(exact, low=found.low, high=found.high)
        yield OtherWay(str(Row.EXACT), "profile_likelihood", "logit", profiled)
