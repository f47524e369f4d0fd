"""One plain sentence for each pooled answer, by the number of studies behind it."""

from collections.abc import Sequence
from statistics import median

from evsyn.cells.cell import Cell
from evsyn.pooling.answer import Differs, PoolAnswer, Reading, Row, Show
from evsyn.pooling.tables import PooledTable
from evsyn.wording.numbers import count, counted, percent, span
from evsyn.wording.rows import ROW_IN_SENTENCE, headline_gives

#: Width of a range for a new setting beyond which it says next to nothing.
UNCONSTRAINED = 0.6
#: Width of the interval of the row to read beyond which its value is no number to quote: such an
#: interval holds more than half of all the rates there could be.
UNQUOTABLE = 0.5
TOO_WIDE = "too wide to quote"


def pooled_sentence(pooled: PooledTable, *, event: str, group: str, refused: str = "") -> str:
    """Say in words what a pool holds, and no more than it can.

    Parameters
    ----------
    pooled : PooledTable
        Table and answer.
    event : str
        The outcome inside a sentence, as ``perforation``.
    group : str
        Whom the answer is about, as ``palliation``; empty for all studies.
    refused : str
        The plan's reason, where pooling is refused.
    """
    answer = pooled.answer
    where = f", {group}" if group else ""
    subject = f"{event[0].upper()}{event[1:]}{where}"
    match answer.show:
        case Show.NOTHING:
            return f"{subject}: no study here reports it."
        case Show.ONE:
            return (
                f"{subject}: one study, {_listed(pooled)}.{_open(answer)} One study is not a pool."
            )
        case Show.TWO:
            return (
                f"{subject}: two studies, {_listed(pooled)}; together {_crude(answer)} only if "
                "both share one true rate. Two studies say nothing about spread."
            )
        case Show.ALL_ZERO:
            return (
                f"{subject}: none, {_sum(answer)} in {_studies(answer)}. Rates up to "
                f"{percent(answer.one_sided or 0)} remain possible (one-sided 95%) if all share "
                "one true rate; the spread between studies cannot be estimated."
            )
        case Show.ALL_FULL:
            return (
                f"{subject}: in all, {_sum(answer)} in {_studies(answer)}. Rates down to "
                f"{percent(answer.one_sided or 1)} remain possible (one-sided 95%) if all share "
                "one true rate; the spread between studies cannot be estimated."
            )
        case Show.REFUSED:
            why = f" {refused[:1].upper()}{refused[1:].rstrip('.')}." if refused else ""
            values = values_without_summary(pooled)
            return f"{subject}: {_studies(answer)}; counts only, not pooled: {values}.{why}"
        case Show.FEW | Show.SOME | Show.MANY:
            return f"{subject}: {_read(answer)}"


def values_without_summary(pooled: PooledTable) -> str:
    """Say what studies show where no summary may be made: ends with their counts, and median.

    Parameters
    ----------
    pooled : PooledTable
        A table with one study at least.

    References
    ----------
    Campbell M et al. BMJ 2020;368:l6890 (synthesis without meta-analysis, items 3 and 7).
    """
    cells = sorted(pooled.table.cells, key=lambda cell: cell.events / cell.total)
    low, high = cells[0], cells[-1]
    if len(cells) == 1:
        return _value(low)
    said = f"from {_value(low)} to {_value(high)}"
    if len(cells) == 2:
        return said
    return f"{said}, median {percent(median(cell.events / cell.total for cell in cells))}"


def _value(cell: Cell) -> str:
    share = percent(cell.events / cell.total)
    return f"{share} ({count(cell.events, cell.total)}, {cell.label})"


def _read(answer: PoolAnswer) -> str:
    reading = answer.reading
    if reading is None:
        return (
            f"{_sum(answer)} in {_studies(answer)}; the exact models did not settle, so there is "
            "no line to read: take the counts only."
        )
    row = reading.pooled
    said = (
        f"a typical setting sees {percent(row.estimate)} ({span(row.low, row.high)}), "
        f"{_sum(answer)} in {_studies(answer)}, by {ROW_IN_SENTENCE[reading.row]}"
    )
    headline = answer.rows.get(Row.HEADLINE)
    if headline is not None:
        said += (
            f"; {headline_gives(headline)} {percent(headline.estimate)} "
            f"({span(headline.low, headline.high)})"
        )
    if too_wide_to_quote(answer):
        said += f"; that interval is {TOO_WIDE} a value from"
    return f"{said}. {_outlook(answer, reading)}"


def _outlook(answer: PoolAnswer, reading: Reading) -> str:
    if answer.show is Show.FEW:
        return (
            f"Only {answer.k} studies: how far settings differ is all but unknown, and a range "
            "for a new one would be unreliable."
        )
    row = reading.pooled
    said = (
        f"The {100 * row.level:g}% range for an ordinary new setting is "
        f"{span(row.prediction_low, row.prediction_high)}"
    )
    second = answer.second_prediction
    if second is not None:
        said += (
            f". Next to no spread was seen between the studies, but {answer.k} studies cannot "
            f"exclude a range of {span(second.low, second.high)}"
        )
    if row.prediction_high - row.prediction_low > UNCONSTRAINED:
        said += "; so wide a range means that the studies do not constrain a new setting"
    if answer.show is Show.SOME:
        said += f". With {answer.k} studies that spread is a rough guess"
    return f"{said}."


def too_wide_to_quote(answer: PoolAnswer) -> bool:
    """Say whether the row to read has an interval so wide that its value must not be quoted.

    Parameters
    ----------
    answer : PoolAnswer
        An answer; one without a row to read has nothing to quote, and gives False.

    Notes
    -----
    The limit, :data:`UNQUOTABLE`, is a choice of this project; common practice, no source.
    """
    if answer.reading is None:
        return False
    row = answer.reading.pooled
    return row.high - row.low > UNQUOTABLE


def range_sentence(answer: PoolAnswer) -> str:
    """Say the range of an ordinary new setting in one line; empty below five studies."""
    if answer.reading is None or not answer.show.verdict:
        return ""
    row = answer.reading.pooled
    limits = span(row.prediction_low, row.prediction_high)
    return f"{100 * row.level:g}% range for an ordinary new setting: {limits}."


def disagreement_sentence(answer: PoolAnswer) -> str:
    """Say in which ways the rows disagree enough to matter; empty where they do not."""
    if not answer.disagreements:
        return ""
    said = []
    for item in answer.disagreements:
        if item.kind is Differs.POINTS:
            said.append(f"their values run from {span(item.smallest, item.largest)}")
        else:
            ratio = item.largest / item.smallest
            said.append(f"the widest interval is {ratio:.1f} times the narrowest")
    return f"The methods disagree enough to matter: {'; '.join(said)}."


def reading_sentence(answer: PoolAnswer) -> str:
    """Say which row is read, and why; empty where none is."""
    if answer.reading is None:
        return ""
    name = ROW_IN_SENTENCE[answer.reading.row]
    return f"Read {name}: {'; '.join(answer.reading.reasons)}."


def _listed(pooled: PooledTable) -> str:
    parts: Sequence[str] = [
        f"{cell.label} {count(cell.events, cell.total)} ({percent(cell.events / cell.total)})"
        for cell in pooled.table.cells
    ]
    joined = " and ".join(parts)
    if len(parts) == 1 and pooled.answer.crude is not None:
        crude = pooled.answer.crude
        return f"{joined[:-1]}; exact 95% interval {span(crude.low, crude.high)})"
    return joined


def _open(answer: PoolAnswer) -> str:
    """Say what none or all of one study leaves open; empty otherwise."""
    if answer.one_sided is None:
        return ""
    way = "up" if sum(answer.events) == 0 else "down"
    return f" Rates {way} to {percent(answer.one_sided)} remain possible (one-sided 95%)."


def _crude(answer: PoolAnswer) -> str:
    share = percent(sum(answer.events) / sum(answer.total))
    if answer.crude is None:
        return f"{_sum(answer)} ({share})"
    limits = span(answer.crude.low, answer.crude.high)
    return f"{_sum(answer)} ({share}; exact 95% interval {limits})"


def _sum(answer: PoolAnswer) -> str:
    return count(sum(answer.events), sum(answer.total))


def _studies(answer: PoolAnswer) -> str:
    return counted(answer.k, "study", "studies")
