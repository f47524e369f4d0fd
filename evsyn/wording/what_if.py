"""Words for an answer as it would be if a count were another: never the review's own answer."""

from collections.abc import Sequence

from evsyn.pooling.answer import PoolAnswer, Row, Show
from evsyn.pooling.result import Pooled, Status
from evsyn.pooling.what_if import CountChange
from evsyn.wording.numbers import count, percent, span, spread
from evsyn.wording.rows import ROW_IN_SENTENCE

MARK = "WHAT IF"
BEFORE, AFTER = "As the review stands", "What if"
UNCHANGED = "The same counts are pooled, so this answer stays."
COMPARISONS_LEFT = "Comparisons of two treatments are not answered anew here."


def what_if_line(changes: Sequence[tuple[str, str, CountChange]], without: Sequence[str]) -> str:
    """Return what stands ahead of the status line: what was changed, and that it is no answer.

    Parameters
    ----------
    changes : sequence of (label, event, CountChange)
        Each change with its study and its outcome in words.
    without : sequence of str
        Labels of the studies left out.
    """
    told = [
        f"{label} takes {count(change.events, change.total)} for {event}"
        for label, event, change in changes
    ]
    told += [f"{label} is left out" for label in without]
    return f"{MARK}: {'; '.join(told)}. What follows is not the review's own answer."


def comes_in_sentence(labels: Sequence[str]) -> str:
    """Say which studies are pooled only after a change."""
    one = len(labels) == 1
    return (
        f"{' and '.join(labels)} {'is' if one else 'are'} pooled only then, because "
        f"{'it shares' if one else 'they share'} patients with a study left out."
    )


def before_and_after(answer: PoolAnswer) -> dict[str, str]:
    """Return what a table sets side by side before and after a change, by the words of the line."""
    reading, head = answer.reading, answer.rows.get(Row.HEADLINE)
    lines = {"Studies": f"{answer.k}", "Count": "no data"}
    if answer.show is Show.REFUSED:
        return {**lines, "Count": "not pooled"}
    if answer.k:
        lines["Count"] = count(sum(answer.events), sum(answer.total))
    has_head = head is not None and head.status is Status.POOLED
    ranged = reading is not None and answer.show.verdict
    lines["Headline"] = _interval(head) if head and has_head else "none"
    lines["Read this"] = _interval(reading.pooled) if reading else "none"
    lines["Row that is read"] = ROW_IN_SENTENCE[reading.row] if reading else "none"
    lines["Range for a new setting"] = (
        span(reading.pooled.prediction_low, reading.pooled.prediction_high)
        if reading and ranged
        else "none given"
    )
    second = answer.second_prediction
    lines["Range not excluded"] = span(second.low, second.high) if second and ranged else ""
    lines["Spread (tau, log-odds)"] = spread(reading.pooled.tau) if reading else "none"
    lines["A unit can be placed"] = "yes" if reading and answer.show.verdict else "no"
    return lines


def _interval(row: Pooled) -> str:
    return f"{percent(row.estimate)} ({span(row.low, row.high)})"
