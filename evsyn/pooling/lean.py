"""Does one study carry the pool: every study left out, one at a time."""

from dataclasses import dataclass

import numpy as np

from evsyn.cells.cell import Cell
from evsyn.effects.proportions import logit_effects
from evsyn.extraction.review import Review
from evsyn.pooling.disputed import disputed_pool
from evsyn.pooling.influence import influence
from evsyn.pooling.tables import PooledTable


@dataclass(frozen=True, slots=True)
class WithoutStudy:
    """The pool if one study were out.

    Parameters
    ----------
    row : Cell
        The study's row.
    without : PooledTable
        The pool without it.
    shift : float
        Estimate of the row to read without it, less that of all, as a proportion; ``nan`` where
        either has none.
    comes_in : tuple of str
        Labels of studies pooled only then, because they share patients with it.
    weight : float
        Its share of weight in the headline row, 0 to 1.
    residual : float
        Its log-odds less the headline mean of the others, in standard errors of that difference.
    tau2_without : float
        Between-study variance of the headline row without it.
    """

    row: Cell
    without: PooledTable
    shift: float
    comes_in: tuple[str, ...]
    weight: float
    residual: float
    tau2_without: float


@dataclass(frozen=True, slots=True)
class Leaning:
    """One pool, and what it would be without each study; no study where nothing is pooled."""

    base: PooledTable
    studies: tuple[WithoutStudy, ...]


def leaning_of(review: Review, base: PooledTable) -> Leaning:
    """Answer a pool anew without each of its studies.

    Parameters
    ----------
    review : Review
        The review, which tells who comes in where a study is left out.
    base : PooledTable
        The pool as it stands.

    Returns
    -------
    Leaning
        Studies in the order of the pool.

    Notes
    -----
    Weight, residual and spread are of the studies' own log-odds in the headline row: an exact
    model of counts gives no study a weight. They take the other studies as they stand, without
    those that come in.
    """
    found = disputed_pool(review, base, most=0)
    if not found.studies:
        return Leaning(base, ())
    events = np.array(base.answer.events, dtype=np.int64)
    effects = logit_effects(events, np.array(base.answer.total, dtype=np.int64))
    pull = influence(effects.estimate, effects.variance, between=review.plan.pooling.between)
    return Leaning(
        base,
        tuple(
            WithoutStudy(
                row=study.row,
                without=study.without.pooled,
                shift=study.without.shift,
                comes_in=study.comes_in,
                weight=float(pull.weight[place]),
                residual=float(pull.residual[place]),
                tau2_without=float(pull.tau2_without[place]),
            )
            for place, study in enumerate(found.studies)
        ),
    )
