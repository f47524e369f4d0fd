"""Whom a claim speaks of, what the review holds of them, and the honest base of every rewording."""

from evsyn.claims.evidence import LackFound
from evsyn.claims.held import Held, Lack, characteristics_of
from evsyn.claims.series import OneSeries
from evsyn.extraction.claims import Claim
from evsyn.extraction.plan import Plan
from evsyn.extraction.review import Review
from evsyn.pooling.answer import PoolAnswer, Row, Show
from evsyn.pooling.choose import LEAST_TO_READ
from evsyn.pooling.review import group_label
from evsyn.wording.claims_said import Said
from evsyn.wording.numbers import count, counted, percent, span
from evsyn.wording.rows import ROW_IN_SENTENCE, headline_gives
from evsyn.wording.wanted import wanted_and_found

#: No more series than this are named one by one.
MOST_NAMED = 5


def whom(claim: Claim, held: Held, review: Review) -> str:
    """Name the patients, window and denominator of a claim; empty for all of them."""
    told = [group_label(review.plan, held.table.question)]
    told += [
        _characteristic_words(name, word, review.plan)
        for name, word in characteristics_of(review, claim).items()
    ]
    if claim.window is not None:
        told.append(review.plan.windows[claim.window].label)
    if claim.of is not None:
        told.append(f"of {review.plan.denominators[claim.of]}")
    return ", ".join(part for part in told if part)


def _characteristic_words(name: str, word: str, plan: Plan) -> str:
    declared = plan.characteristics.arm.get(name) or plan.characteristics.study.get(name)
    if declared is None:
        return word
    return f"{declared.label.lower()} '{declared.levels.get(word, word)}'"


def subject(claim: Claim, held: Held, review: Review) -> str:
    """Head a sentence with the outcome and whom it is about, as ``Perforation, palliation``."""
    label = review.plan.outcomes[held.table.question.outcome].label
    about = whom(claim, held, review)
    return f"{label}, {about}" if about else label


def rate_now(claim: Claim, held: Held, review: Review) -> str:
    """Say honestly what the review holds of a rate, in one sentence that can be spoken."""
    answer, who = held.pooled.answer, subject(claim, held, review)
    if answer.show is Show.REFUSED:
        why = (review.plan.outcomes[held.table.question.outcome].do_not_pool or "").rstrip(".")
        return f"{who}: {_series(answer.k)}; counts only, not pooled. {why[:1].upper()}{why[1:]}."
    if answer.k < LEAST_TO_READ:
        named = " and ".join(
            f"{cell.label} {count(cell.events, cell.total)} ({percent(cell.events / cell.total)})"
            for cell in held.table.cells
        )
        only = "one series, and one" if answer.k == 1 else "two series, and two"
        return f"{who}: {named}; {only} is no pool."
    counts = f"{who}: {count(sum(answer.events), sum(answer.total))}"
    if answer.reading is None:
        return f"{counts} in {_series(answer.k)}; {_left_open(answer)}."
    row = answer.reading.pooled
    said = (
        f"{counts} in {_series(answer.k)}; a typical setting sees {percent(row.estimate)} "
        f"({span(row.low, row.high)})"
    )
    if not answer.show.verdict:
        return f"{said}; {_series(answer.k)} cannot tell how far settings differ."
    limits = f"from {percent(row.prediction_low)} to {percent(row.prediction_high)}"
    return f"{said}, and an ordinary new one may see anything {limits}."


def _left_open(answer: PoolAnswer) -> str:
    if answer.one_sided is None:
        return "the models did not settle, so there are counts only"
    way = "up" if sum(answer.events) == 0 else "down"
    return (
        f"rates {way} to {percent(answer.one_sided)} remain possible (one-sided 95%), if all "
        "share one true rate"
    )


def _series(k: int) -> str:
    return f"{k:,} series"


def pool_sentences(claim: Claim, held: Held, review: Review) -> tuple[str, ...]:
    """Say what the pool behind a claim is, and which windows and denominators its counts have."""
    answer = held.pooled.answer
    said = []
    if answer.reading is not None:
        row, name = answer.reading.pooled, ROW_IN_SENTENCE[answer.reading.row]
        headline = answer.rows[Row.HEADLINE]
        said.append(
            f"{subject(claim, held, review)}: typical rate {percent(row.estimate)} "
            f"({span(row.low, row.high)}) by {name}, the row to read; "
            f"{headline_gives(headline)} {percent(headline.estimate)} "
            f"({span(headline.low, headline.high)}); added up {added_up(answer)} in "
            f"{_series(answer.k)}."
        )
    if not _all_wanted(held, review.plan):
        outcome = held.table.question.outcome
        said.append(wanted_and_found(review.plan, outcome, held.table.cells))
    return tuple(said)


def _all_wanted(held: Held, plan: Plan) -> bool:
    """Tell whether every count has the denominator and the window that the plan puts first."""
    outcome = plan.outcomes[held.table.question.outcome]
    return all(
        cell.basis == outcome.denominators[0]
        and (not outcome.windows or cell.window == outcome.windows[0])
        for cell in held.table.cells
    )


def added_up(answer: PoolAnswer) -> str:
    """Write the counts of all series together, with their share."""
    events, total = sum(answer.events), sum(answer.total)
    return f"{count(events, total)} ({percent(events / total)})"


def series_words(row: OneSeries) -> str:
    """Write one series with its count, its rate and its place."""
    share = percent(row.events / row.total)
    return f"{row.label} {count(row.events, row.total)} ({share}; {row.source})"


def _unstated(held: Held, what: str) -> str:
    return f" ({held.unstated} do not state the {what})" if held.unstated else ""


def lack_words(claim: Claim, found: LackFound, review: Review) -> Said:
    """Say that nothing is held, and at which step nothing was left."""
    held, plan = found.held, review.plan
    event = plan.outcomes[held.table.question.outcome].event
    all_of = f"{counted(held.reporting, 'series', 'series')} with a count of {event}"
    if held.lack is Lack.OUTCOME:
        none = f"No series of this review has a count of {event} that can be used."
    elif held.lack is Lack.PATIENTS:
        told = whom(claim.model_copy(update={"window": None, "of": None}), held, review)
        none = f"0 of the {all_of} report it for: {told}."
    elif held.lack is Lack.WINDOW:
        window = plan.windows[claim.window or ""].label
        none = f"0 of {held.in_scope} series give it {window}{_unstated(held, 'window')}."
    else:
        basis = plan.denominators[claim.of or ""]
        none = f"0 of {held.in_scope} series give it of {basis}{_unstated(held, 'denominator')}."
    left = [
        f"Held and not pooled: {item.label} {count(item.events, item.total)} ({item.source}), "
        f"{item.reason}."
        for item in held.table.left_out[:MOST_NAMED]
    ]
    about = subject(claim, held, review)
    return Said((none, *left), f"{about}: this review, as searched, cannot tell.")
