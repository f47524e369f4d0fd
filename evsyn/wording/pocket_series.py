"""The highest and the lowest series, and how many lie on one side of a number, in words."""

from dataclasses import dataclass

from evsyn.claims.counted import LEAST_SERIES
from evsyn.claims.series import OneSeries, SeriesCount
from evsyn.extraction.plan import Target
from evsyn.extraction.study import Study
from evsyn.wording.claims_bound import series_sentence
from evsyn.wording.numbers import count, percent, span
from evsyn.wording.pocket import Prompt


@dataclass(frozen=True, slots=True)
class Extreme:
    """A series at one end, and what is known of it.

    Parameters
    ----------
    row : OneSeries
        The largest series of this rate.
    shared : int
        How many series have the same rate, itself included.
    when : str
        When its patients were recruited, or what is known of that.
    levels : tuple of (str, str)
        Label of each stratum, and its level in words; empty where it is not stated.
    """

    row: OneSeries
    shared: int
    when: str
    levels: tuple[tuple[str, str], ...]


def recruited_words(study: Study) -> str:
    """Say when a study recruited, or else when it was published."""
    dates, year = study.setting.recruited, study.citation.year
    if dates is not None:
        return f"recruited {dates.from_} to {dates.to}"
    return "years not stated" if year is None else f"published {year}, recruitment not dated"


def extremes_prompt(high: Extreme | None, low: Extreme | None, event: str, refused: str) -> Prompt:
    """Name the series with the highest and the lowest rate.

    Parameters
    ----------
    high, low : Extreme or None
        Both ends; ``None`` without a series, and where the plan forbids pooling.
    event : str
        The outcome inside a sentence.
    refused : str
        The plan's reason, where pooling is refused.
    """
    question = "Which series is the highest, and which the lowest?"
    if refused:
        return Prompt(question, (_not_beside(refused),), "A best or a worst centre.")
    if high is None or low is None:
        return Prompt(question, (f"No series here has a count of {event}.",), "A name from memory.")
    if high.row == low.row:
        said: tuple[str, ...] = (_extreme("All series alike", high),)
    else:
        said = (_extreme("Highest", high), _extreme("Lowest", low))
    never = '"There they do it best, or worst": the ends of many series are in part chance.'
    return Prompt(question, said, never, len(said))


def _extreme(title: str, found: Extreme) -> str:
    row = found.row
    alike = f" (one of {found.shared} series with this rate, the largest)"
    told = "; ".join(
        f"{label[:1].lower()}{label[1:]} {words or 'not stated'}" for label, words in found.levels
    )
    return (
        f"{title}: {row.label}{alike if found.shared > 1 else ''}, {count(row.events, row.total)} "
        f"({percent(row.events / row.total)}; exact {span(row.low, row.high)}); {found.when}"
        f"{f'; {told}' if told else ''}."
    )


def _not_beside(reason: str) -> str:
    return f"The plan does not set these shares beside each other: {reason.rstrip('.')}."


def most_prompt(series: SeriesCount, what: str, target: Target | None) -> Prompt:
    """Say of how many series a rate lies on the welcome side of a number.

    Parameters
    ----------
    series : SeriesCount
        The series.
    what : str
        The side and the number, as ``below 6.0%``.
    target : Target or None
        The target that gave the number; ``None`` where it is the typical rate.
    """
    number = what.split(" ", 1)[1]
    whence = f"{number} is the typical rate of these series themselves."
    if target is not None:
        set_by = target.according_to.rstrip(".")
        whence = f"{number} is the target set by {set_by}, on {target.decided_on}."
    said = [series_sentence(series, what), whence]
    if series.k < LEAST_SERIES:
        said.insert(1, f"Of {series.k} series nobody says 'most'.")
    is_most = 2 * series.by_rate > series.k
    if is_most and 2 * series.by_interval <= series.k:
        never = (
            f'"Most are shown to be {what}": by their whole intervals {series.by_interval} of '
            f"{series.k} are."
        )
    else:
        never = (
            f'"Most hospitals are, or are not, {what}": series are counted, and those published.'
        )
    return Prompt(f"Are most series {what}?", tuple(said), never)


def no_number_prompt(refused: str) -> Prompt:
    """Say that there is no number to count series against."""
    said = "The plan sets no target, and there is no typical rate to read: no line to count by."
    if refused:
        said = _not_beside(refused)
    never = '"Most are low", or "most are high": against what, nothing here says.'
    return Prompt("Are most series below a limit?", (said,), never)
