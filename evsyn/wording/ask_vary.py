"""Words for what other choices would have given."""

from collections.abc import Iterator

from evsyn.pooling.answer import PoolAnswer, Row
from evsyn.pooling.result import Pooled, Status
from evsyn.pooling.vary import OtherWay, Varied
from evsyn.wording.ask_lean import signed
from evsyn.wording.numbers import cell, count, percent
from evsyn.wording.rows import ROW_NAMES

SETS_TITLE, WAYS_TITLE = "Other studies", "The same studies, pooled another way"
SET_HEADINGS = ("Set", "Studies", "Count", "As most papers pool, %", "Read this, %", "Shift")
WAY_HEADINGS = ("Way", "%", "Shift")
AS_IT_STANDS = "as it stands"
NOTHING = "Nothing is pooled here, so no choice can change it."
NO_OTHER_SET = (
    "No other set: every count is at the wanted denominator and window, tied to its total, printed "
    "as such, whole, and read in full, and no study may share patients with another."
)
KEY = (
    "Shift: in points, of the row to read for sets, and from the headline for ways. Other scales, "
    "all by DerSimonian-Laird with the ordinary interval, are there to match what is printed "
    "elsewhere, and are never read; the raw one cannot be made where a study is at 0% or 100%. "
    "The beta-binomial value is a mean over settings, the others are the median setting."
)
_BETWEEN = {
    "dersimonian_laird": "DerSimonian-Laird",
    "restricted_ml": "restricted ML",
    "paule_mandel": "Paule-Mandel",
    "ml": "maximum likelihood",
    "hedges_olkin": "Hedges-Olkin",
    "sidik_jonkman": "Sidik-Jonkman",
}
_INTERVAL = {
    "ordinary": "ordinary interval",
    "hartung_knapp": "Hartung-Knapp",
    "hartung_knapp_floor": "Hartung-Knapp, floored",
    "profile_likelihood": "profile likelihood",
}
_SCALE = {
    "arcsine": "arcsine scale",
    "freeman_tukey": "Freeman-Tukey scale, sum",
    "freeman_tukey_mean": "Freeman-Tukey scale, mean",
    "raw": "raw scale",
}


def vary_heading(label: str, group: str) -> str:
    """Say what is asked."""
    return f"{label}, {group}: what other choices would give"


def vary_sentence(found: Varied) -> str:
    """Say between which values the answer moves, by choice of studies and by way of pooling."""
    reading = found.base.answer.reading
    if not found.base.answer.show.pooled:
        return NOTHING
    parts = []
    values = [(AS_IT_STANDS, reading.pooled.estimate)] if reading is not None else []
    values += [
        (one.label, one.pooled.answer.reading.pooled.estimate)
        for one in found.sets
        if one.pooled.answer.reading is not None
    ]
    if len(values) > 1:
        low, high = min(values, key=_second), max(values, key=_second)
        parts.append(
            f"Over the sets of studies the row to read lies between {percent(low[1])} "
            f"({low[0]}) and {percent(high[1])} ({high[0]})."
        )
    ways = [(way_words(one), one.value.estimate) for one in _medians(found) if one.value]
    head = found.base.answer.rows.get(Row.HEADLINE)
    if head is not None and head.status is Status.POOLED:
        ways.append(("the headline as it stands", head.estimate))
    if ways:
        low, high = min(ways, key=_second), max(ways, key=_second)
        parts.append(
            f"Pooled another way on log-odds the same studies give between {percent(low[1])} "
            f"({low[0]}) and {percent(high[1])} ({high[0]})."
        )
    return " ".join(parts)


def set_rows(found: Varied) -> Iterator[tuple[str, ...]]:
    """Yield the row of the pool as it stands, then one a set."""
    base = found.base.answer
    yield _set_row(AS_IT_STANDS, base, base)
    for one in found.sets:
        yield _set_row(one.label, one.pooled.answer, base)


def way_rows(found: Varied) -> Iterator[tuple[str, ...]]:
    """Yield the headline as it stands, then one row a way."""
    head = found.base.answer.rows[Row.HEADLINE]
    # By the plan's estimator, which need not be the one most papers use.
    yield (f"{_BETWEEN[head.between]}, {_INTERVAL[head.interval]} (headline)", _value(head), "")
    for one in (*found.headlines, *found.models, *found.scales):
        shift = ""
        if one.value is not None and head.status is Status.POOLED:
            shift = signed(100 * (one.value.estimate - head.estimate))
        yield (way_words(one), _value(one.value), shift)


def way_words(one: OtherWay) -> str:
    """Name a way of pooling."""
    if one.scale != "logit":
        return _SCALE[one.scale]
    if one.interval == "profile_likelihood":
        return f"{ROW_NAMES[Row(one.between)]}, {_INTERVAL[one.interval]}"
    if not one.interval:
        return ROW_NAMES[Row(one.between)]
    return f"{_BETWEEN[one.between]}, {_INTERVAL[one.interval]}"


def _set_row(label: str, answer: PoolAnswer, base: PoolAnswer) -> tuple[str, ...]:
    head, reading = answer.rows.get(Row.HEADLINE), answer.reading
    shift = ""
    if reading is not None and base.reading is not None and answer is not base:
        shift = signed(100 * (reading.pooled.estimate - base.reading.pooled.estimate))
    return (
        label,
        f"{answer.k}",
        count(sum(answer.events), sum(answer.total)) if answer.k else "no data",
        _value(head),
        "none" if reading is None else _value(reading.pooled),
        shift,
    )


def _medians(found: Varied) -> Iterator[OtherWay]:
    """Yield the ways whose value is the median setting on log-odds."""
    yield from found.headlines
    yield from (one for one in found.models if one.between != str(Row.BETA_BINOMIAL))


def _value(row: Pooled | None) -> str:
    if row is None or row.status is not Status.POOLED:
        return "cannot be made"
    return cell(row.estimate, row.low, row.high)


def _second(pair: tuple[str, float]) -> float:
    return pair[1]
