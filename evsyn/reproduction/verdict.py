"""Which variant gives what is printed: every one is tried, and the best are named."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from enum import StrEnum

from evsyn.reproduction.compare import Check, Match, PrintedItem, compared, printed_items
from evsyn.reproduction.consistency import inconsistencies
from evsyn.reproduction.load import CheckedPooling
from evsyn.reproduction.recompute import numbers_of
from evsyn.reproduction.rounding import envelope_of
from evsyn.reproduction.rows import Kind, Rows, rows_of
from evsyn.reproduction.stated import Stated, stated_of
from evsyn.reproduction.together import fit_together
from evsyn.reproduction.variants import Variant, variants
from evsyn.terms import Finding

HEADLINE = ("estimate", "low", "high")
#: Places of numbers printed a row, which are many and say less of the method.
ROW_PLACES = frozenset({"weight", "row"})


class Verdict(StrEnum):
    """What can be said of a published pooling."""

    REPRODUCED = "reproduced"
    EXCEPT = "reproduced except"
    SINGLY = "each number by itself"
    NOT = "not reproducible"


@dataclass(frozen=True, slots=True)
class Trial:
    """One variant held against everything printed.

    Parameters
    ----------
    variant : Variant
        The variant.
    checks : tuple of Check
        Every printed number, in the order of the file.
    together : bool or None
        Where some fit only within the rounding of the rows: whether one typing of the rows that
        would be printed alike was found that gives all numbers at once. None where not asked.
    """

    variant: Variant
    checks: tuple[Check, ...]
    together: bool | None = None

    @property
    def misfits(self) -> tuple[Check, ...]:
        """What the variant does not give."""
        return tuple(check for check in self.checks if not check.match.fits)

    @property
    def by_rounding(self) -> tuple[Check, ...]:
        """What it gives only within the rounding of the inputs."""
        return tuple(check for check in self.checks if check.match is Match.ROUNDING)

    @property
    def gives_pool_exactly(self) -> bool:
        """Whether it gives all that is printed of the pool without the rounding of the rows."""
        return all(check.item.place[0] in ROW_PLACES for check in self.by_rounding)

    @property
    def headline(self) -> tuple[Check, ...]:
        """The printed pooled value and its limits: of the total, else of the groups, else all."""
        for line in ("overall", "group"):
            ends = tuple(
                check
                for check in self.checks
                if check.item.place[0] == line and check.item.place[-1] in HEADLINE
            )
            if ends:
                return ends
        return self.checks


@dataclass(frozen=True, slots=True)
class Reproduction:
    """What became of a published pooling.

    Parameters
    ----------
    checked : CheckedPooling
        What was typed, with what its checks found.
    rows : Rows
        Its rows as arrays.
    verdict : Verdict
        The answer.
    best : tuple of Trial
        The variants that give most, alike; the plainest first. For ``not reproducible`` the nearest
        alone.
    tried : int
        How many variants were tried.
    stated : Stated or None
        What was understood of the method the paper states.
    findings : tuple of Finding
        What does not fit within the print itself; with those of the typed file.
    """

    checked: CheckedPooling
    rows: Rows
    verdict: Verdict
    best: tuple[Trial, ...]
    tried: int
    stated: Stated | None
    findings: tuple[Finding, ...]

    @property
    def as_stated(self) -> bool | None:
        """Whether a variant that is named fits the method stated; None where none is understood."""
        if self.stated is None or not self.stated.words:
            return None
        return any(self.stated.fits(one.variant) for one in self.best)


def reproduce(checked: CheckedPooling) -> Reproduction:
    """Try every variant on a published pooling.

    Parameters
    ----------
    checked : CheckedPooling
        A pooling without faults.

    Returns
    -------
    Reproduction
    """
    pooling = checked.pooling
    rows, items = rows_of(pooling), printed_items(pooling)
    trials = _trials(rows, items)
    stated = stated_of(pooling.stated_method)
    whole = [trial for trial in trials if not trial.misfits]
    held = [trial for trial in trials if all(check.match.fits for check in trial.headline)]
    held = [] if whole else _holding(rows, held)
    if whole:
        best = _reproducing(rows, whole)
        verdict = Verdict.SINGLY if best[0].together is False else Verdict.REPRODUCED
    elif held:
        verdict, best = Verdict.EXCEPT, held
    else:
        verdict, best = Verdict.NOT, [min(trials, key=_distance)]
    if stated is not None:
        best.sort(key=lambda trial: not stated.fits(trial.variant))
    told = inconsistencies(pooling, rows, [one.variant for one in best])
    findings = (*checked.findings, *told)
    return Reproduction(checked, rows, verdict, tuple(best), len(trials), stated, findings)


def _reproducing(rows: Rows, whole: Sequence[Trial]) -> list[Trial]:
    """Return the variants that are named, of all that give every number.

    Those that give the pool from the rows as typed; if there are none, those of which one typing
    within the rounding of the rows gives everything at once; failing these too, all.
    The nearest to the rows as typed come first.
    """
    exact = [trial for trial in whole if trial.gives_pool_exactly]
    best = [
        replace(trial, together=fit_together(rows, trial.variant, trial.checks))
        if trial.by_rounding
        else trial
        for trial in exact or sorted(whole, key=_off)
    ]
    return [trial for trial in best if trial.together is not False] or best


def _holding(rows: Rows, held: Sequence[Trial]) -> list[Trial]:
    """Return those that miss least, of trials that give the pooled value with its limits.

    Where they do so within the rounding of the rows only, they must for one set of rows.
    """
    return [
        trial
        for trial in (_alike(held) if held else ())
        if all(check.match is Match.EXACT for check in trial.headline)
        or fit_together(rows, trial.variant, trial.headline)
    ]


def _trials(rows: Rows, items: tuple[PrintedItem, ...]) -> list[Trial]:
    """Try each variant; of two that differ only in the quantile behind limits, keep the better."""
    best: dict[tuple[str, ...], Trial] = {}
    for variant in variants(rows):
        trial = _trial(rows, variant, items)
        if trial is None:
            continue
        one = variant
        alike = (one.model, one.between, one.interval, one.scale, one.zero_cells, one.q_about)
        if alike not in best or _rank(trial) < _rank(best[alike]):
            best[alike] = trial
    return list(best.values())


def _trial(rows: Rows, variant: Variant, items: tuple[PrintedItem, ...]) -> Trial | None:
    of_fractions = rows.kind in (Kind.COUNTS, Kind.PROPORTION)
    try:
        numbers = numbers_of(rows, variant)
    except ValueError:
        # The variant is not defined for these rows, as a raw proportion of 0%.
        return None
    checks = compared(items, numbers, of_fractions=of_fractions)
    # The two quantiles differ by far less than any rounding of the rows.
    first = variant.quantile != "exact"
    if rows.rounded and first and not all(check.match.fits for check in checks):
        envelope = envelope_of(rows, variant, (item.place for item in items))
        checks = compared(items, numbers, envelope, of_fractions=of_fractions)
    return Trial(variant, checks)


def _rank(trial: Trial) -> tuple[int, int]:
    return len(trial.misfits), len(trial.by_rounding)


def _alike(trials: Sequence[Trial]) -> list[Trial]:
    """Return the trials that fit best, in the order of the table."""
    best = min(map(_rank, trials))
    return [trial for trial in trials if _rank(trial) == best]


def _distance(trial: Trial) -> tuple[int, float]:
    """Return how far a trial is: the numbers it misses, then how far off it is."""
    return len(trial.misfits), _off(trial)


def _off(trial: Trial) -> float:
    """Return how many units of print lie between all of the print and the rows as typed."""
    return sum(min(check.units_off, 1e3) for check in trial.checks)
