"""'The rate is 7.4%', in words."""

from evsyn.claims.equals import EqualsFound, Printed, RowPrint
from evsyn.claims.verdict import ClaimVerdict
from evsyn.extraction.claim_value import Form
from evsyn.extraction.claims import Claim
from evsyn.extraction.percentages import Fit
from evsyn.extraction.review import Review
from evsyn.wording.claims_held import pool_sentences, rate_now
from evsyn.wording.claims_said import Said
from evsyn.wording.numbers import percent

_ROWS = {
    Printed.READING: "the row to read",
    Printed.HEADLINE: "the headline",
    Printed.CRUDE: "all series added up",
}


def equals_words(claim: Claim, found: EqualsFound, review: Review) -> Said:
    """Say which row prints the number, or that none does."""
    return Said(
        (_verdict(found),),
        f"{rate_now(claim, found.held, review)}{_named(found)}",
        pool_sentences(claim, found.held, review),
        _scope(found),
    )


def _named(found: EqualsFound) -> str:
    """Name the row that a number came from, where it is not the row to read."""
    rows = found.printing(Fit.ROUNDED) or found.printing(Fit.TRUNCATED)
    if not rows or not _has_reading(found) or rows[0].row is Printed.READING:
        return ""
    name = _ROWS[rows[0].row]
    verb = "give" if rows[0].row is Printed.CRUDE else "gives"
    return f" {name[0].upper()}{name[1:]} {verb} {percent(rows[0].value)}."


def _scope(found: EqualsFound) -> str:
    if found.verdict is not ClaimVerdict.BORNE_OUT:
        return ""
    if found.value.form is Form.COUNT:
        return "as a count"
    rounded, cut = found.printing(Fit.ROUNDED), found.printing(Fit.TRUNCATED)
    if rounded:
        return f"as {_ROWS[rounded[0].row]}"
    return f"as {_ROWS[cut[0].row]} with digits cut off"


def _verdict(found: EqualsFound) -> str:
    value = found.value.written
    rounded, cut = found.printing(Fit.ROUNDED), found.printing(Fit.TRUNCATED)
    if not found.rows:
        return f"{value} is set beside nothing: the plan does not add these counts up."
    if found.value.form is Form.COUNT:
        verb = "is" if rounded else "is not"
        return f"{value} {verb} what the series add up to."
    if rounded:
        more = ""
        if Printed.READING not in [row.row for row in rounded] and _has_reading(found):
            more = "; the row to read does not print it"
        return f"{value} is printed by {_listed(rounded)}{more}."
    if cut:
        return (
            f"{value} is printed only by cutting digits off and not by rounding, by "
            f"{_listed(cut)} ({percent(cut[0].value)})."
        )
    if found.verdict is ClaimVerdict.BEYOND and _has_reading(found):
        return (
            f"{value} is printed by no row. It lies inside the interval of the typical rate or of "
            "the headline, so it is neither shown nor excluded."
        )
    if found.verdict is ClaimVerdict.BEYOND:
        return f"{value} would be a rate of settings at large, and there is no pool to read one."
    return f"{value} is printed by no row, and lies outside the intervals of all that are read."


def _has_reading(found: EqualsFound) -> bool:
    return any(row.row is Printed.READING for row in found.rows)


def _listed(rows: tuple[RowPrint, ...]) -> str:
    return " and by ".join(_ROWS[row.row] for row in rows)
