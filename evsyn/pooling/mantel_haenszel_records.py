"""Records of Mantel-Haenszel pooling."""

from dataclasses import replace

import numpy as np
from scipy import special

from evsyn.effects.arguments import Floats
from evsyn.effects.scales import Scale
from evsyn.effects.two_arms import TWO_ARM_EFFECTS, TwoArms
from evsyn.pooling.between_study import NO_SPREAD
from evsyn.pooling.functions import effect_records
from evsyn.pooling.grid import AnalysisGrid
from evsyn.pooling.mantel_haenszel import MantelHaenszel, mantel_haenszel
from evsyn.pooling.result import Pooled, Status

MODEL = "mantel_haenszel"


def mantel_haenszel_records(
    arms: TwoArms, grid: AnalysisGrid, contrast: str, level: float, *, half_in_sums: bool
) -> tuple[Pooled, ...]:
    """Return one record an analysis.

    Parameters
    ----------
    arms : TwoArms
        Cells as counted.
    grid : AnalysisGrid
        Which studies enter; for ratios, only such as inform one.
    contrast : str
        Key of ``METHODS``.
    level : float
        Two-sided level, already checked.
    half_in_sums : bool
        Whether half is added to all four cells of studies with an empty cell inside the sums too.

    Returns
    -------
    tuple of Pooled
        Q is that of inverse-variance weights about the Mantel-Haenszel estimate; its study effects
        have halves where they cannot be formed without. ``not_estimable`` where the sums leave the
        effect open.
    """
    effects = TWO_ARM_EFFECTS[contrast](arms)
    pooled = mantel_haenszel(cells_of_sums(arms, half_in_sums=half_in_sums), grid.mask, contrast)
    about = effect_records(effects, grid, NO_SPREAD, "ordinary", level, q_about=pooled.estimate)
    note = "half_added_in_sums" if half_in_sums else "half_added_in_q"
    return tuple(
        _record(record, pooled, row, note, effects.scale) for row, record in enumerate(about)
    )


def cells_of_sums(arms: TwoArms, *, half_in_sums: bool) -> TwoArms:
    """Return the cells that enter the sums."""
    return arms.with_half(arms.has_empty_cell) if half_in_sums else arms


def unestimable(like: Pooled, **changes: object) -> Pooled:
    """Return a record that says only how much was asked, and that nothing can be estimated."""
    bare = Pooled(
        like.model,
        like.scale,
        like.between,
        like.interval,
        like.level,
        like.k,
        Status.NOT_ESTIMABLE if like.k else Status.NO_STUDY,
    )
    return replace(bare, **changes)  # type: ignore[arg-type]


def _record(about: Pooled, pooled: MantelHaenszel, row: int, note: str, scale: Scale) -> Pooled:
    estimate, se = float(pooled.estimate[row]), float(pooled.se[row])
    if not np.isfinite(se):
        return unestimable(about, model=MODEL)
    half = float(special.ndtri((1 + about.level) / 2)) * se
    low, centre, high = _back(scale, np.array([estimate - half, estimate, estimate + half]))
    weights = pooled.weights[row]
    halved = about.corrected if about.k > 1 or note == "half_added_in_sums" else ()
    return replace(
        about,
        model=MODEL,
        estimate=centre,
        low=low,
        high=high,
        estimate_on_scale=estimate,
        se_on_scale=se,
        weights=tuple((weights / weights.sum()).tolist()),
        notes=(note,) * bool(halved),
        corrected=halved,
    )


def _back(scale: Scale, values: Floats) -> tuple[float, ...]:
    return tuple(scale.back(values).tolist())
