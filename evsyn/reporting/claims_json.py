"""A weighed claim as fields for programs."""

import math
from typing import Any

from evsyn.audit.counts import UnitTally
from evsyn.claims.bound import BoundFound
from evsyn.claims.counted import CountFound
from evsyn.claims.equals import EqualsFound
from evsyn.claims.guideline import GuidelineFound
from evsyn.claims.held import Held
from evsyn.claims.levels import LevelsFound
from evsyn.claims.ordinary_units import AtTau, UnitShare
from evsyn.claims.series import OneSeries, SeriesCount
from evsyn.claims.unit_counts import OwnLackFound
from evsyn.claims.unit_levels import OwnLevelsFound
from evsyn.claims.unit_place import OwnPlaceFound
from evsyn.claims.unit_rate import OwnRateFound
from evsyn.claims.weigh import Weighed
from evsyn.pooling.answer import Row
from evsyn.pooling.result import Pooled
from evsyn.wording.claims import WITHHELD, ClaimWords
from evsyn.wording.claims_sources import held_of, own_sources
from evsyn.wording.claims_unit_place import limits_of


def weighed_json(one: Weighed, words: ClaimWords) -> dict[str, Any]:
    """Return a weighed claim as fields; of a withheld one nothing but that it is withheld."""
    if one.found is None or one.verdict is None:
        return {"withheld": WITHHELD, "verdict": None, "in_words": words.verdict}
    places = [source for held in held_of(one) for c in held.table.cells for source in c.sources]
    if isinstance(one.found, GuidelineFound) and one.found.statement is not None:
        places.append(one.found.statement.source())
    return {
        "claim": one.claim.claim,
        "says": one.claim.says,
        "about": str(one.claim.about),
        "verdict": str(one.verdict),
        "in_words": words.verdict,
        "overreach": [{"kind": str(o.kind), "word": o.word} for o in one.overreach],
        "sentences": [*words.sentences, *words.pool],
        "say_instead": words.instead,
        "numbers": _numbers(one.found),
        "written": one.claim.source().to_dict(),
        "sources": [source.to_dict() for source in (*places, *own_sources(one))],
    }


def _numbers(found: object) -> dict[str, Any]:
    match found:
        case LevelsFound():
            return _levels(found)
        case OwnRateFound() | OwnPlaceFound() | OwnLevelsFound() | OwnLackFound():
            return _own(found)
        case GuidelineFound():
            return _guideline(found)
    held = getattr(found, "held", None)
    numbers: dict[str, Any] = _pool(held) if isinstance(held, Held) else {}
    match found:
        case EqualsFound():
            numbers["printed_by"] = [
                {"row": str(r.row), "value": r.value, "fit": str(r.fit)} for r in found.rows
            ]
        case BoundFound():
            numbers["series"] = _series(found.series)
            numbers["ordinary_units"] = _units(found.units)
            numbers["range_verdict"] = None if found.ordinary is None else str(found.ordinary)
        case CountFound():
            numbers["series"] = _series(found.series)
            numbers["wanted"], numbers["of"] = found.wanted, found.of
    return numbers


def _pool(held: Held) -> dict[str, Any]:
    answer = held.pooled.answer
    reading = answer.reading
    crude = answer.crude
    return {
        "key": held.table.question.key,
        "k": answer.k,
        "events": None if crude is None else sum(answer.events),
        "total": None if crude is None else sum(answer.total),
        "reporting": held.reporting,
        "lack": None if held.lack is None else str(held.lack),
        "show": str(answer.show),
        "reading_row": None if reading is None else str(reading.row),
        "typical": None if reading is None else _row(reading.pooled),
        "headline": _row(answer.rows[Row.HEADLINE]) if Row.HEADLINE in answer.rows else None,
        "one_sided_95": answer.one_sided,
    }


def _row(row: Pooled) -> dict[str, float | None]:
    fields = ("estimate", "low", "high", "prediction_low", "prediction_high")
    values = {name: float(getattr(row, name)) for name in fields}
    return {name: value if math.isfinite(value) else None for name, value in values.items()}


def _series(series: SeriesCount) -> dict[str, Any]:
    return {
        "k": series.k,
        "by_rate": series.by_rate,
        "at_edge": series.at_edge,
        "by_interval": series.by_interval,
        "against": series.against,
        "inside": [_one(row) for row in series.inside],
        "outside": [_one(row) for row in series.outside],
    }


def _one(row: OneSeries) -> dict[str, Any]:
    return {
        "study": row.study,
        "label": row.label,
        "events": row.events,
        "total": row.total,
        "low": row.low,
        "high": row.high,
        "source": row.source.to_dict(),
    }


def _units(units: UnitShare | None) -> dict[str, Any] | None:
    if units is None:
        return None
    return {
        "share": units.share,
        "at_low": _at(units.at_low),
        "at_high": _at(units.at_high),
        "is_reliable": units.is_reliable,
    }


def _at(at: AtTau | None) -> dict[str, float] | None:
    return None if at is None else {"tau": at.tau, "share": at.share}


def _levels(found: LevelsFound) -> dict[str, Any]:
    test = found.difference.test
    return {
        "first": {"level": found.first, **_pool(found.here)},
        "second": {"level": found.second, **_pool(found.there)},
        "odds_ratio": found.ratio,
        "low": found.low,
        "high": found.high,
        "p": None if test is None else test.p,
        "levels_tested": [] if test is None else list(test.levels),
        "exploratory": None if test is None else test.exploratory,
    }


def _own(
    found: OwnRateFound | OwnPlaceFound | OwnLevelsFound | OwnLackFound,
) -> dict[str, Any]:
    if isinstance(found, OwnLackFound):
        return {"lack": str(found.lack)}
    if isinstance(found, OwnLevelsFound):
        return {"first": _tally(found.first), "second": _tally(found.second)}
    numbers: dict[str, Any] = {"own": _tally(found.tally)}
    if isinstance(found, OwnRateFound):
        numbers["interval"] = found.interval.to_dict()
        numbers["widest"] = found.widest.to_dict()
        numbers["one_sided_95"] = found.one_sided
        numbers["fit"] = None if found.fit is None else str(found.fit)
        return numbers
    reach = limits_of(found)
    numbers["place"] = None if found.place is None else str(found.place)
    numbers["differs"] = [str(item) for item in found.differs]
    numbers["range"] = None if reach is None else [reach.low, reach.high]
    return numbers


def _tally(tally: UnitTally) -> dict[str, Any]:
    return {
        "key": tally.question.key,
        "events": tally.events,
        "total": tally.total,
        "unknown": tally.unknown,
        "basis": tally.basis,
        "window": tally.window,
    }


def _guideline(found: GuidelineFound) -> dict[str, Any]:
    one = found.statement
    return {
        "grounds": [str(ground) for ground in found.grounds],
        "recorded": found.recorded,
        "read": found.read,
        "statement": None if one is None else one.model_dump(mode="json"),
        "others": [other.id for other in found.others],
    }
