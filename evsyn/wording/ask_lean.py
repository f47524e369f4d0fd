"""Words for how far a pool leans on one study."""

import math

from evsyn.pooling.answer import PoolAnswer, Row
from evsyn.pooling.lean import Leaning, WithoutStudy
from evsyn.wording.disputed import says_otherwise
from evsyn.wording.numbers import cell, count, percent

HEADINGS = ("If out", "Count", "Weight", "Read this then, %", "Shift", "Spread", "Residual")
KEY = (
    "Weight: share in the headline row, its leverage. Read this then: the row to read without the "
    "study. Shift: in points. Spread: tau of the headline row without it, log-odds. Residual: how "
    "far the study lies from the others, in standard errors; where nothing is amiss about one "
    "study in 20 lies beyond 2 either way, more of a pool of three to five, fewer where events "
    "are few. Spread and residual leave out what comes in. Studies that shift most stand first."
)
NOTHING = "Nothing is pooled here, so nothing can lean on one study."


def lean_heading(label: str, group: str) -> str:
    """Say what is asked."""
    return f"{label}, {group}: if one study were out"


def lean_sentence(leaning: Leaning, *, target: float | None) -> str:
    """Say between which values the row to read lies when any one study is out, and what changes.

    Parameters
    ----------
    leaning : Leaning
        The pool without each study.
    target : float or None
        The plan's fixed rate of the outcome, if it has one.
    """
    known = [one for one in leaning.studies if not math.isnan(one.shift)]
    if not known:
        return NOTHING
    low, high = (pick(known, key=_estimate) for pick in (min, max))
    said = (
        f"With any one study out, the row to read lies between {percent(_estimate(low))} (without "
        f"{low.row.label}) and {percent(_estimate(high))} (without {high.row.label})."
    )
    changed = [
        f"without {one.row.label}, {' and '.join(told)}"
        for one in leaning.studies
        if (told := says_otherwise(leaning.base, one.without, target=target))
    ]
    if not changed:
        return f"{said} No study changes anything else that is said."
    return f"{said} Said otherwise: {'; '.join(changed)}."


def instead_sentence(one: WithoutStudy) -> str:
    """Say which studies are pooled only without a study, since they share its patients."""
    verb = "are" if len(one.comes_in) > 1 else "is"
    return (
        f"Without {one.row.label}, {' and '.join(one.comes_in)} {verb} pooled in its place, with "
        "which it shares patients."
    )


def whole_row(leaning: Leaning) -> tuple[str, ...]:
    """Return the cells of the pool as it stands."""
    answer = leaning.base.answer
    head = answer.rows.get(Row.HEADLINE)
    known = head is not None and not math.isnan(head.tau2)
    return (
        "as it stands",
        count(sum(answer.events), sum(answer.total)),
        "",
        _then(answer),
        "",
        f"{head.tau:.2f}" if head is not None and known else "",
        "",
    )


def lean_row(one: WithoutStudy) -> tuple[str, ...]:
    """Return one study's cells."""
    return (
        one.row.label,
        count(one.row.events, one.row.total),
        f"{100 * one.weight:.1f}%",
        _then(one.without.answer),
        "" if math.isnan(one.shift) else signed(100 * one.shift),
        "" if math.isnan(one.tau2_without) else f"{math.sqrt(one.tau2_without):.2f}",
        signed(one.residual),
    )


def _then(answer: PoolAnswer) -> str:
    if answer.reading is None:
        return "none"
    row = answer.reading.pooled
    return cell(row.estimate, row.low, row.high)


def signed(value: float) -> str:
    """Write a number with its sign and one decimal; none where it rounds to 0.

    Examples
    --------
    >>> signed(0.26), signed(-1.04), signed(-0.04)
    ('+0.3', '-1.0', '0.0')
    """
    written = f"{value:+.1f}"
    return "0.0" if float(written) == 0 else written


def _estimate(one: WithoutStudy) -> float:
    reading = one.without.answer.reading
    assert reading is not None
    return reading.pooled.estimate
