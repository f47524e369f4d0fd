"""A unit's audit as it may leave the unit, as text and as JSON."""

from typing import Any

from evsyn.audit.ascertainment import period_years
from evsyn.audit.outside import OutsideCount, outside_count, wholes
from evsyn.audit.release import Told
from evsyn.audit.unit_audit import UnitAudit, unit_audit
from evsyn.extraction.plan import Plan
from evsyn.extraction.review import Review
from evsyn.extraction.unit import Unit
from evsyn.reporting.plain_table import plain_table
from evsyn.reporting.pool_text import paragraph
from evsyn.terms import Audience
from evsyn.wording.audience import outside_mark
from evsyn.wording.audit import invented_sentence, outside_closing
from evsyn.wording.outside import (
    cases_sentence,
    head_sentence,
    outside_sentences,
    outside_verdict,
    told_words,
)
from evsyn.wording.status import INVENTED, status_line


def outside_counts(audited: UnitAudit) -> tuple[OutsideCount, ...]:
    """Return what may be told outside of each whole count."""
    cases = audited.ascertainment.counted
    found = []
    for standing in wholes(audited.standings):
        whole = audited.whole(standing.outcome)
        held = None if whole is None else whole.found
        reach = held.limits if held is not None and held.judged else None
        exact = audited.unit.release is not None
        found.append(outside_count(standing, cases, reach, exact=exact))
    return tuple(found)


def outside_text(review: Review, unit: Unit) -> str:
    """Return a unit's audit as text for use outside."""
    plan = review.plan
    audited = unit_audit(review, unit)
    told = outside_counts(audited)
    mark = f"{INVENTED}: " if unit.invented or review.invented else ""
    parts = [
        paragraph(outside_mark(unit)),
        paragraph(f"{mark}{head_sentence(unit, period_years(unit))}"),
        paragraph(f"Set against: {status_line(review)}"),
        *map(paragraph, invented_sentence(unit.invented, review.invented)),
        "",
        paragraph(_cases(audited, plan)),
        "",
        _table(told, plan),
    ]
    for item in told:
        parts += ["", *map(paragraph, outside_sentences(item, plan))]
    parts += ["", *map(paragraph, outside_closing())]
    return "\n".join(parts)


def outside_fields(review: Review, unit: Unit) -> dict[str, Any]:
    """Return a unit's audit as fields for use outside; of a hidden count, what it could be."""
    audited = unit_audit(review, unit)
    return {
        "for": str(Audience.OUTSIDE),
        "mark": outside_mark(unit),
        "unit": unit.unit,
        "label": unit.label,
        "invented": unit.invented or review.invented,
        "status": status_line(review),
        "cases": _cases(audited, review.plan),
        "counts": [_fields(item, review.plan) for item in outside_counts(audited)],
        "closing": list(outside_closing()),
    }


def _cases(audited: UnitAudit, plan: Plan) -> str:
    found = audited.ascertainment
    return cases_sentence(found.counted, found.expected, plan.population)


def _table(told: tuple[OutsideCount, ...], plan: Plan) -> str:
    rows = [
        (
            f"{plan.outcomes[item.outcome].label}, all cases",
            told_words(item),
            _range(item),
            outside_verdict(item),
        )
        for item in told
    ]
    return plain_table(("Count of the unit", "Count", "Ordinary units", "Verdict"), rows)


def _range(item: OutsideCount) -> str:
    reach = item.limits
    if reach is None or item.count.told is Told.WITHHELD:
        return ""
    return f"{reach.low:,} to {reach.high:,} of {item.count.total:,}"


def _fields(item: OutsideCount, plan: Plan) -> dict[str, Any]:
    is_told = item.count.told is not Told.WITHHELD
    reach = item.limits if is_told else None
    return {
        "outcome": item.outcome,
        "of": item.basis,
        "window": item.window,
        "told": str(item.count.told),
        "count": item.count.shown,
        "total": item.count.total if is_told else None,
        "lowest": item.count.possible[0] if is_told else None,
        "highest": item.count.possible[-1] if is_told else None,
        "interval": None if item.interval is None else item.interval.to_dict(),
        "one_sided": item.one_sided,
        "range": None if reach is None else {"low": reach.low, "high": reach.high},
        "verdict": None if item.verdict is None or not is_told else str(item.verdict),
        "sentences": list(outside_sentences(item, plan)),
    }
