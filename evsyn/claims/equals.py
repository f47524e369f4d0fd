"""'The rate is 7.4%': whether any honest row prints those digits."""

from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction

from evsyn.claims.held import Held
from evsyn.claims.verdict import ClaimVerdict
from evsyn.extraction.claim_value import Amount, Form
from evsyn.extraction.percentages import Fit, fit_of
from evsyn.pooling.answer import PoolAnswer, Row, Show


class Printed(StrEnum):
    """The rows a speaker may have taken a number from."""

    READING = "reading_row"
    HEADLINE = "headline"
    CRUDE = "added_up"


@dataclass(frozen=True, slots=True)
class RowPrint:
    """One row, and whether it prints the digits of the claim.

    Parameters
    ----------
    row : Printed
        Which row.
    value : float
        Its value, a proportion.
    fit : Fit
        Whether the claim's digits are its own, rounded or cut off.
    """

    row: Printed
    value: float
    fit: Fit


@dataclass(frozen=True, slots=True)
class EqualsFound:
    """What was found of a claim that names one number.

    Parameters
    ----------
    verdict : ClaimVerdict
        ``BORNE_OUT`` where a row prints the digits; ``BEYOND`` where none does and the number lies
        inside the interval of the row to read or of the headline; else ``CONTRADICTED``. Without
        a row to read only a count can be borne out or contradicted.
    held : Held
        The counts.
    value : Amount
        The number.
    rows : tuple of RowPrint
        The rows, the one to read first.
    """

    verdict: ClaimVerdict
    held: Held
    value: Amount
    rows: tuple[RowPrint, ...]

    def printing(self, fit: Fit) -> tuple[RowPrint, ...]:
        """Return the rows that print the number in this way."""
        return tuple(row for row in self.rows if row.fit is fit)


def weigh_equals(held: Held, value: Amount) -> EqualsFound:
    """Weigh 'the rate is so much', or 'so many of so many'.

    Parameters
    ----------
    held : Held
        The counts, at least one.
    value : Amount
        A percentage, ``1 in N``, or a count.
    """
    answer = held.pooled.answer
    rows = tuple(_rows(answer, value))
    return EqualsFound(_verdict(answer, value, rows), held, value, rows)


def fit_to(rate: Fraction, value: Amount) -> Fit:
    """Tell whether a rate prints as a claimed number.

    Parameters
    ----------
    rate : Fraction
        The rate, exact.
    value : Amount
        A percentage, which may be rounded either way at a tie, or cut off; or ``a in b``: for one
        in b, one over the rate rounds to b, else the rate times b rounds to a.
    """
    if value.form is Form.PERCENT:
        return fit_of(rate.numerator, rate.denominator, value.written)
    if value.events is None or value.total is None or not rate:
        return Fit.IMPOSSIBLE
    target, meant = value.events, rate * value.total
    if value.events == 1:
        target, meant = value.total, 1 / rate
    return Fit.ROUNDED if abs(meant - target) <= Fraction(1, 2) else Fit.IMPOSSIBLE


def _rows(answer: PoolAnswer, value: Amount) -> Iterator[RowPrint]:
    if answer.show is Show.REFUSED:
        return
    events, total = sum(answer.events), sum(answer.total)
    crude = Fraction(events, total)
    if value.form is Form.COUNT:
        same = (events, total) == (value.events, value.total)
        yield RowPrint(Printed.CRUDE, float(crude), Fit.ROUNDED if same else Fit.IMPOSSIBLE)
        return
    if answer.reading is not None:
        estimate = answer.reading.pooled.estimate
        yield RowPrint(Printed.READING, estimate, fit_to(Fraction(estimate), value))
        headline = answer.rows[Row.HEADLINE].estimate
        yield RowPrint(Printed.HEADLINE, headline, fit_to(Fraction(headline), value))
    yield RowPrint(Printed.CRUDE, float(crude), fit_to(crude, value))


def _verdict(answer: PoolAnswer, value: Amount, rows: tuple[RowPrint, ...]) -> ClaimVerdict:
    fits = any(row.fit is not Fit.IMPOSSIBLE for row in rows)
    if value.form is Form.COUNT and rows:
        return ClaimVerdict.BORNE_OUT if fits else ClaimVerdict.CONTRADICTED
    if answer.reading is None:
        return ClaimVerdict.BEYOND
    if fits:
        return ClaimVerdict.BORNE_OUT
    told = (answer.reading.pooled, answer.rows[Row.HEADLINE])
    is_open = any(row.low <= value.low <= row.high for row in told)
    return ClaimVerdict.BEYOND if is_open else ClaimVerdict.CONTRADICTED
