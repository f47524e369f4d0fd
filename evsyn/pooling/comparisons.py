"""Pool two arms, of counts or of measurements: plain arrays in, records out."""

from collections.abc import Mapping
from dataclasses import replace

import numpy as np
from numpy.typing import ArrayLike, NDArray

from evsyn.effects.arguments import known_word
from evsyn.effects.means import MEAN_EFFECTS, read_two_means
from evsyn.effects.two_arms import RATIOS, TWO_ARM_EFFECTS, TwoArms, read_two_arms
from evsyn.pooling.functions import TWO_STEP_MODELS, effect_records
from evsyn.pooling.grid import AnalysisGrid, overall
from evsyn.pooling.hypergeometric_normal.pool import pool_hypergeometric_normal
from evsyn.pooling.mantel_haenszel import METHODS, mantel_haenszel
from evsyn.pooling.mantel_haenszel_records import (
    cells_of_sums,
    mantel_haenszel_records,
    unestimable,
)
from evsyn.pooling.options import checked_between
from evsyn.pooling.records import places
from evsyn.pooling.result import Pooled, Status

#: Contrasts each model is defined for.
MODELS: Mapping[str, tuple[str, ...]] = {
    "random": tuple(TWO_ARM_EFFECTS),
    "common": tuple(TWO_ARM_EFFECTS),
    "mantel_haenszel": tuple(METHODS),
    "exact": ("odds_ratio",),
}

#: Where half is added: to the study effects alone, or inside Mantel and Haenszel's sums as well.
ZERO_CELLS = ("half_in_effects", "half_in_sums")

#: Where Cochran's Q, and DerSimonian and Laird's estimator with it, is taken.
Q_ABOUT = ("inverse_variance", "mantel_haenszel")


def pool_comparisons(
    events_1: ArrayLike,
    total_1: ArrayLike,
    events_2: ArrayLike,
    total_2: ArrayLike,
    *,
    contrast: str = "risk_ratio",
    model: str = "random",
    between: str = "dersimonian_laird",
    interval: str = "ordinary",
    level: float = 0.95,
    zero_cells: str = "half_in_effects",
    q_about: str = "inverse_variance",
) -> Pooled:
    """Pool two arms of counts; arm 1 over, or less, arm 2.

    Parameters
    ----------
    events_1, total_1, events_2, total_2 : array_like of int
        Counts of each arm, one entry a study.
    contrast : {"risk_ratio", "odds_ratio", "risk_difference", "peto"}
        What is compared; ``peto`` is the one-step odds ratio from observed less expected events.
    model : {"random", "common", "mantel_haenszel", "exact"}
        Two-step random effects; one common effect by inverse variance (with ``peto``, Peto's
        method); Mantel and Haenszel's common effect (not for ``peto``); or the exact conditional
        model with a random log odds ratio and every study's baseline conditioned out
        (``odds_ratio`` only).
    between, interval
        As in :func:`evsyn.pool_proportions`, for model ``random`` only. ``exact`` has maximum
        likelihood and t limits on ``k - 1``, the others the ordinary interval.
    level : float
        Two-sided level of every interval, as 0.95.
    zero_cells : {"half_in_effects", "half_in_sums"}
        Half is added to all four cells of studies with an empty cell, and of no other, when their
        own ratio is formed. By default none is added inside Mantel-Haenszel sums, which need none;
        ``half_in_sums`` adds it there too, to match print. Risk differences keep their counts, and
        only a variance of 0 is formed with halves; Peto's method and the exact model need none.
    q_about : {"inverse_variance", "mantel_haenszel"}
        For model ``random`` by DerSimonian and Laird: where Q, and ``tau2`` with it, is taken.
        Both are in print. The Mantel-Haenszel model always takes Q about its own estimate.

    Returns
    -------
    Pooled
        Ratios, or differences of risks; ``tau2`` and the fields ending in ``_on_scale`` on the
        natural logarithm of a ratio. Studies without an event, or with events only, do not inform
        a ratio: they are not counted in ``k``, weigh 0, and ``left_out`` gives their places. One
        study keeps its own effect with the ordinary interval. ``not_estimable`` where no study
        informs the ratio, or the Mantel-Haenszel sums leave it open, as where one arm has no event
        in any study.

    Raises
    ------
    ValueError
        If the counts are impossible, an option or the level is not known, an option does nothing
        in the model asked for, the model is not defined for the contrast, or the counts of a study
        are too large for the exact model.

    References
    ----------
    DerSimonian R, Laird N. Control Clin Trials 1986;7:177-188; Mantel N, Haenszel W. J Natl Cancer
    Inst 1959;22:719-748; Robins J, Breslow N, Greenland S. Biometrics 1986;42:311-323; Greenland S,
    Robins JM. Biometrics 1985;41:55-68; Yusuf S, Peto R, et al. Prog Cardiovasc Dis
    1985;27:335-371; Stijnen T, Hamza TH, Ozdemir P. Stat Med 2010;29:3046-3067.
    """
    (record,) = pool_comparisons_grid(
        events_1,
        total_1,
        events_2,
        total_2,
        None,
        contrast=contrast,
        model=model,
        between=between,
        interval=interval,
        level=level,
        zero_cells=zero_cells,
        q_about=q_about,
    )
    return record


def pool_comparisons_grid(
    events_1: ArrayLike,
    total_1: ArrayLike,
    events_2: ArrayLike,
    total_2: ArrayLike,
    grid: AnalysisGrid | None,
    *,
    contrast: str = "risk_ratio",
    model: str = "random",
    between: str = "dersimonian_laird",
    interval: str = "ordinary",
    level: float = 0.95,
    zero_cells: str = "half_in_effects",
    q_about: str = "inverse_variance",
) -> tuple[Pooled, ...]:
    """Pool two arms of counts for every analysis of a grid; all studies in one by default.

    Parameters, returns and errors as in :func:`pool_comparisons`, one record a row of ``grid``.
    The exact model is fitted analysis by analysis, the others in one vectorised call.
    """
    arms = read_two_arms(events_1, total_1, events_2, total_2)
    between = checked_between(model, between, interval, level, models=MODELS)
    _refuse_idle(contrast, model, between, zero_cells, q_about)
    asked = overall(arms.yes_1.size) if grid is None else grid
    asked.refuse_other_width(arms.yes_1.size)
    informs = arms.informs_ratio | (contrast not in RATIOS)
    used = AnalysisGrid(asked.labels, asked.mask & informs)
    half_in_sums = zero_cells == "half_in_sums"
    if model == "exact":
        records = tuple(_exact(arms, mask, level) for mask in used.mask)
    elif model == "mantel_haenszel":
        records = mantel_haenszel_records(arms, used, contrast, level, half_in_sums=half_in_sums)
    else:
        effects = TWO_ARM_EFFECTS[contrast](arms)
        centre = None
        if q_about == "mantel_haenszel":
            cells = cells_of_sums(arms, half_in_sums=half_in_sums)
            centre = mantel_haenszel(cells, used.mask, contrast).estimate
        records = effect_records(effects, used, between, interval, level, q_about=centre)
        if centre is not None:
            records = tuple(_about_sums(record) for record in records)
    return tuple(
        _finished(record, contrast, mask & ~informs)
        for record, mask in zip(records, asked.mask, strict=True)
    )


def pool_means(
    mean_1: ArrayLike,
    sd_1: ArrayLike,
    total_1: ArrayLike,
    mean_2: ArrayLike,
    sd_2: ArrayLike,
    total_2: ArrayLike,
    *,
    contrast: str = "mean_difference",
    model: str = "random",
    between: str = "dersimonian_laird",
    interval: str = "ordinary",
    level: float = 0.95,
) -> Pooled:
    """Pool two arms of measurements; arm 1 less arm 2.

    Parameters
    ----------
    mean_1, sd_1, mean_2, sd_2 : array_like
        Mean and standard deviation of each arm, one entry a study, in one unit.
    total_1, total_2 : array_like of int
        Patients of each arm, at least 2.
    contrast : {"mean_difference", "standardised_mean_difference"}
        In the unit given, or in pooled standard deviations with Hedges' small-sample correction.
    model : {"random", "common"}
        Two-step random effects, or one common effect by inverse variance.
    between, interval, level
        As in :func:`evsyn.pool_proportions`; the first two belong to ``random``.

    Returns
    -------
    Pooled
        All fields in the unit of the contrast.

    Raises
    ------
    ValueError
        If a standard deviation is not above 0, a total is not a whole number of at least 2, a
        value is not finite, or an option or the level is not known.

    References
    ----------
    Cochrane Handbook for Systematic Reviews of Interventions 5.1.0, section 9.4.5; Hedges LV, Olkin
    I. Statistical Methods for Meta-Analysis. Academic Press, 1985, chapter 5.
    """
    arms = read_two_means(mean_1, sd_1, total_1, mean_2, sd_2, total_2)
    known_word("contrast", contrast, MEAN_EFFECTS)
    between = checked_between(model, between, interval, level, models=TWO_STEP_MODELS)
    effects = MEAN_EFFECTS[contrast](arms)
    (record,) = effect_records(effects, overall(effects.estimate.size), between, interval, level)
    return replace(record, contrast=contrast)


def _refuse_idle(contrast: str, model: str, between: str, zero_cells: str, q_about: str) -> None:
    """Refuse unknown words, models that are not defined, and options that would do nothing."""
    known_word("contrast", contrast, TWO_ARM_EFFECTS)
    known_word("zero_cells", zero_cells, ZERO_CELLS)
    known_word("q_about", q_about, Q_ABOUT)
    if contrast not in MODELS[model]:
        raise ValueError(
            f"model {model!r} is not defined for contrast {contrast!r}; defined for: "
            f"{', '.join(MODELS[model])}"
        )
    about_sums = q_about == "mantel_haenszel"
    if about_sums and (between != "dersimonian_laird" or contrast not in METHODS):
        raise ValueError(
            "q_about 'mantel_haenszel' needs model 'random' by 'dersimonian_laird' and a contrast "
            "that Mantel-Haenszel pooling has"
        )
    sums = about_sums or model == "mantel_haenszel"
    if zero_cells == "half_in_sums" and not (sums and contrast in RATIOS):
        raise ValueError("zero_cells 'half_in_sums' needs Mantel-Haenszel sums of a ratio")


def _exact(arms: TwoArms, mask: NDArray[np.bool_], level: float) -> Pooled:
    if mask.sum() < 2:
        effects = TWO_ARM_EFFECTS["odds_ratio"](arms)
        grid = AnalysisGrid(("exact",), mask[np.newaxis, :])
        (record,) = effect_records(effects, grid, "dersimonian_laird", "ordinary", level)
        return replace(record, model="hypergeometric_normal", between="maximum_likelihood")
    record = pool_hypergeometric_normal(arms.take(mask), level=level)
    place = np.flatnonzero(mask)
    weights = np.zeros(mask.size)
    if record.weights:
        weights[place] = record.weights
    return replace(
        record,
        weights=tuple(weights.tolist()) if record.weights else (),
        corrected=tuple(place[list(record.corrected)].tolist()),
    )


def _about_sums(record: Pooled) -> Pooled:
    """Say that Q was taken about the sums, or that they leave the centre open."""
    if record.k >= 2 and np.isnan(record.q):
        return unestimable(record)
    return replace(record, notes=(*record.notes, "q_about_mantel_haenszel") * (record.k >= 2))


def _finished(record: Pooled, contrast: str, left_out: NDArray[np.bool_]) -> Pooled:
    status = record.status
    if status is Status.NO_STUDY and left_out.any():
        status = Status.NOT_ESTIMABLE
    return replace(record, status=status, contrast=contrast, left_out=places(left_out))
