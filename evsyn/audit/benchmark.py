"""The pool a unit is set against, in the numbers an audit prints."""

from dataclasses import dataclass, replace

from evsyn.audit.comparable import tally
from evsyn.pooling.answer import Row, Show
from evsyn.pooling.tables import PooledTable
from evsyn.terms import Interval


@dataclass(frozen=True, slots=True)
class Benchmark:
    """One pool, summed up.

    Parameters
    ----------
    show : Show
        How much may be shown of it.
    k : int
        Number of studies.
    events, total : int or None
        Their counts added up; this and the limits below are ``None`` where the plan does not pool
        the outcome, since then no sum means anything.
    crude : Interval or None
        Exact interval of the added counts.
    one_sided : float or None
        One-sided 95% limit where the pool holds no event, or nothing else.
    first_year, last_year : int or None
        First and last known year of publication.
    years_unknown : int
        Studies whose year is not known.
    bases, windows : tuple of (str, int)
        Denominator bases and windows, each with its number of studies, the commonest first.
    row : Row or None
        The row that is read; this and all below is ``None`` where there is none.
    reasons : tuple of str
        Why that row.
    typical, low, high : float or None
        Rate of a typical setting with the limits of that row; a beta-binomial row gives the mean.
    tau : float or None
        Spread between studies, log-odds; ``None`` for a beta-binomial row.
    rho : float or None
        Intraclass correlation, for a beta-binomial row.
    mean : float or None
        Mean rate over settings, which expected counts use.
    own_left_out : tuple of str
        Studies left out because they are the unit's own.
    """

    show: Show
    k: int
    events: int | None
    total: int | None
    crude: Interval | None
    one_sided: float | None
    first_year: int | None
    last_year: int | None
    years_unknown: int
    bases: tuple[tuple[str, int], ...]
    windows: tuple[tuple[str, int], ...]
    row: Row | None = None
    reasons: tuple[str, ...] = ()
    typical: float | None = None
    low: float | None = None
    high: float | None = None
    tau: float | None = None
    rho: float | None = None
    mean: float | None = None
    own_left_out: tuple[str, ...] = ()


def benchmark(pooled: PooledTable, own_studies: tuple[str, ...] = ()) -> Benchmark:
    """Sum up a pool.

    Parameters
    ----------
    pooled : PooledTable
        Table and answer, the unit's own studies already left out.
    own_studies : tuple of str
        Names of those studies.

    Raises
    ------
    ValueError
        If one of the unit's own studies is among the pooled rows.
    """
    table, answer = pooled.table, pooled.answer
    inside = sorted({cell.study for cell in table.cells} & set(own_studies))
    if inside:
        raise ValueError(f"the unit's own study is in its benchmark: {', '.join(inside)}")
    years = [cell.year for cell in table.cells if cell.year is not None]
    reading = answer.reading
    is_summed = answer.show is not Show.REFUSED
    found = Benchmark(
        show=answer.show,
        k=answer.k,
        events=sum(answer.events) if is_summed else None,
        total=sum(answer.total) if is_summed else None,
        crude=answer.crude if is_summed else None,
        one_sided=answer.one_sided if is_summed else None,
        first_year=min(years, default=None),
        last_year=max(years, default=None),
        years_unknown=len(table.cells) - len(years),
        bases=tally([cell.basis for cell in table.cells]),
        windows=tally([cell.window for cell in table.cells]),
        own_left_out=tuple(row.study for row in table.left_out if row.study in set(own_studies)),
    )
    if reading is None:
        return found
    row = reading.pooled
    return replace(
        found,
        row=reading.row,
        reasons=reading.reasons,
        typical=row.estimate,
        low=row.low,
        high=row.high,
        tau=reading.centre.tau if reading.rho is None else None,
        rho=reading.rho,
        mean=reading.mean,
    )
