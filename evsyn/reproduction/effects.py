"""From typed rows to one effect and variance a study, as a variant forms them."""

from dataclasses import replace

import numpy as np
from scipy import special

from evsyn.effects.arguments import Floats
from evsyn.effects.means import MEAN_EFFECTS, TwoMeans
from evsyn.effects.proportions import PROPORTION_EFFECTS, EffectSizes
from evsyn.effects.scales import IDENTITY, LOG
from evsyn.effects.two_arms import TWO_ARM_EFFECTS
from evsyn.reproduction.rows import Kind, Rows
from evsyn.reproduction.variants import Variant

#: The smallest value a ratio's limit is taken to stand for.
_LEAST = 1e-12


def effects_of(rows: Rows, variant: Variant) -> EffectSizes:
    """Return the effects of the rows as typed.

    Raises
    ------
    ValueError
        If the variant cannot form them, as a study at 0% on the raw scale.
    """
    if rows.kind is Kind.COUNTS:
        arms = rows.arms
        if variant.zero_cells == "half_in_all":
            arms = arms.with_half(np.ones(arms.total.size, dtype=np.bool_))
        return TWO_ARM_EFFECTS[contrast_of(rows, variant)](arms)
    if rows.kind is Kind.PROPORTION:
        return _proportions(rows, variant.scale)
    estimate, variance = effects_of_columns(rows, variant, rows.columns)
    uncorrected = np.zeros(estimate.size, dtype=np.bool_)
    return EffectSizes(estimate, variance, uncorrected, LOG if rows.measure.is_ratio else IDENTITY)


def effects_of_columns(rows: Rows, variant: Variant, columns: Floats) -> tuple[Floats, Floats]:
    """Return estimates and variances of means or given effects, for many typings at once.

    Parameters
    ----------
    rows : Rows
        Says what the columns are.
    variant : Variant
        Says what turns limits into a standard error.
    columns : ndarray
        Shape ``(columns, ..., studies)``.

    Returns
    -------
    estimate, variance : ndarray
        Shape ``(..., studies)``.
    """
    if rows.kind is Kind.MEANS:
        formed = MEAN_EFFECTS[contrast_of(rows, variant)](TwoMeans(*columns))
        return formed.estimate, formed.variance
    if rows.kind is Kind.ERROR:
        return columns[0], np.maximum(columns[1], _LEAST) ** 2
    if rows.measure.is_ratio:
        columns = np.log(np.maximum(columns, _LEAST))
    estimate, low, high = columns
    quantile = 1.96 if variant.quantile == "1.96" else float(special.ndtri(0.975))
    return estimate, np.maximum((high - low) / (2 * quantile), _LEAST) ** 2


def contrast_of(rows: Rows, variant: Variant) -> str:
    """Return the engine's name of what is compared."""
    if variant.model.startswith("peto"):
        return "peto"
    return rows.measure.value.replace(" ", "_")


def _proportions(rows: Rows, scale: str) -> EffectSizes:
    events, total = rows.columns
    if scale in PROPORTION_EFFECTS:
        return PROPORTION_EFFECTS[scale](events, total)
    effects = PROPORTION_EFFECTS["freeman_tukey"](events, total)
    if "n_plus_1" in scale:
        effects = replace(effects, variance=1 / (total + 1))
    return replace(effects, total=None) if scale.endswith("simple_back") else effects
