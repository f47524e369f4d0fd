"""Every variant of method that is tried: this file is the table."""

from collections.abc import Iterator
from dataclasses import dataclass

from evsyn.effects.proportions import PROPORTION_EFFECTS
from evsyn.pooling.between_study import ESTIMATORS
from evsyn.pooling.summary_interval import INTERVALS
from evsyn.reproduction.record import Measure
from evsyn.reproduction.rows import Kind, Rows

#: Estimators and intervals, the most printed first.
BETWEEN = tuple(ESTIMATORS)
INTERVAL = tuple(INTERVALS)
#: Where half is put when a study has an empty cell; ``half_in_all`` puts it into every study.
HALVES = ("half_in_effects", "half_in_sums", "half_in_all")
#: Scales of proportions. Besides the engine's own: the double arcsine with variance
#: ``1 / (n + 1)``, and with the way back of an endless study; both are in print.
SCALES = (
    *PROPORTION_EFFECTS,
    "freeman_tukey_n_plus_1",
    "freeman_tukey_simple_back",
    "freeman_tukey_n_plus_1_simple_back",
)
#: The standard error of a printed interval: its width over twice this.
QUANTILES = ("1.96", "exact")


@dataclass(frozen=True, slots=True)
class Variant:
    """One way to pool; what does not apply is empty.

    Parameters
    ----------
    model : str
        ``common``, ``random``, ``mantel_haenszel``, ``peto``, ``peto_random``, or ``exact``.
    between, interval : str
        Names of the estimator and of the interval, for random effects; the interval also for
        ``exact``.
    scale : str
        Scale of proportions.
    zero_cells : str
        Where half is put, in rows that have an empty cell.
    q_about : str
        ``mantel_haenszel`` where Q, and ``tau2`` with it, is taken about that estimate.
    quantile : str
        What turns limits into a standard error.
    """

    model: str
    between: str = ""
    interval: str = "ordinary"
    scale: str = ""
    zero_cells: str = ""
    q_about: str = ""
    quantile: str = ""

    @property
    def key(self) -> str:
        """Return a name for programs, as ``random/dersimonian_laird/ordinary``."""
        parts = (self.model, self.between, self.interval, self.scale)
        about = f"q_about_{self.q_about}" if self.q_about else ""
        se = f"se_by_{self.quantile}" if self.quantile else ""
        return "/".join(part for part in (*parts, about, self.zero_cells, se) if part)


def variants(rows: Rows) -> tuple[Variant, ...]:
    """Return the variants that can differ for these rows, the plainest first."""
    if rows.kind is Kind.COUNTS:
        return tuple(_of_counts(rows))
    if rows.kind is Kind.PROPORTION:
        return tuple(_of_proportions())
    quantiles = QUANTILES if rows.kind is Kind.LIMITS else ("",)
    return tuple(
        Variant(one.model, one.between, one.interval, q_about=one.q_about, quantile=quantile)
        for one in _of_effects(about_sums=_about_sums(rows))
        for quantile in quantiles
    )


def _about_sums(rows: Rows) -> bool:
    """Tell whether differences come with their arms, so that Q can be taken about their sums."""
    given = rows.kind in (Kind.LIMITS, Kind.ERROR) and rows.sizes is not None
    return given and rows.measure is Measure.RISK_DIFFERENCE


def _of_effects(*, about_sums: bool = False) -> Iterator[Variant]:
    yield Variant("common")
    if about_sums:
        yield Variant("random", "dersimonian_laird", q_about="mantel_haenszel")
    for interval in INTERVAL:
        for between in BETWEEN:
            yield Variant("random", between, interval)


def _of_counts(rows: Rows) -> Iterator[Variant]:
    ratio = rows.measure.is_ratio
    empty = ratio and bool(rows.arms.has_empty_cell.any())
    for half in ("half_in_effects", "half_in_sums") if empty else ("",):
        yield Variant("mantel_haenszel", zero_cells=half)
        yield Variant("random", "dersimonian_laird", zero_cells=half, q_about="mantel_haenszel")
    for half in ("half_in_effects", "half_in_all") if empty else ("",):
        for one in _of_effects():
            yield Variant(one.model, one.between, one.interval, zero_cells=half)
    if rows.measure is Measure.ODDS_RATIO:
        yield Variant("peto")
        for between in BETWEEN:
            yield Variant("peto_random", between)
        yield Variant("exact", "maximum_likelihood", "t_k_minus_1")
        yield Variant("exact", "maximum_likelihood", "ordinary")


def _of_proportions() -> Iterator[Variant]:
    for scale in SCALES:
        for one in _of_effects():
            yield Variant(one.model, one.between, one.interval, scale=scale)
    yield Variant("exact", "maximum_likelihood", "ordinary", scale="logit")
    yield Variant("exact", "maximum_likelihood", "t_k_minus_1", scale="logit")
