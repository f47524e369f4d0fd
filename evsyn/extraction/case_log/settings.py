"""How each outcome of a log is read, and what the unit file may not say of it."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from evsyn.extraction.case_log.headings import Columns
from evsyn.extraction.case_log.refused import fault
from evsyn.extraction.case_log.spelling import spelled
from evsyn.extraction.case_log.things import Thing, yes_or_no
from evsyn.extraction.faults import nearest
from evsyn.extraction.flow.attributes import Attributes
from evsyn.extraction.flow.sets import STAGE
from evsyn.extraction.flow.window import Counted, counted_in
from evsyn.extraction.plan import Plan
from evsyn.extraction.unit import CaseLog, LogOutcome
from evsyn.terms import NOT_STATED, Finding, Source


@dataclass(frozen=True, slots=True)
class OutcomeWay:
    """How one outcome is read.

    Parameters
    ----------
    name, of : str
        The outcome, and the stage of its denominator.
    place : int or None
        Place of a column that says yes or no.
    reached : str or None
        The stage that counts as the outcome.
    opposite : bool
        Whether a yes means it did not happen.
    counted : Counted or None
        The cases that have it as far as the course tells. With neither column nor stage the
        outcome is read from these; else they must agree.
    step : str or None
        The step whose column it is read from, if that is a step's.
    """

    name: str
    of: str
    place: int | None
    reached: str | None
    opposite: bool
    counted: Counted | None
    step: str | None = None

    @property
    def is_derived(self) -> bool:
        """Whether it is read from the course of the case."""
        return self.place is None and self.reached is None


def setting_faults(log: CaseLog, plan: Plan, known: Mapping[str, Thing]) -> Iterator[Finding]:
    """Yield a fault for each name of ``case_log`` the plan does not have."""
    if not plan.flow:
        cure = "Add 'flow' to the plan: a log says how far each case came."
        yield fault(log.source(), "the plan names no stages of a case", cure)
    if not log.outcomes:
        yield fault(log.source(), "the log names no outcome", "Add 'outcomes' under 'case_log'.")
    for name, one in log.outcomes.items():
        source = one.source()
        yield from _unknown(name, list(plan.outcomes), "an outcome", source)
        yield from _unknown(one.of, plan.flow, "a stage of the flow", one.source("of"))
        windows = [*plan.windows, NOT_STATED]
        yield from _unknown(one.window, windows, "a window", one.source("window"))
        if one.reached is not None:
            yield from _unknown(one.reached, plan.flow, "a stage", one.source("reached"))
            if one.column is not None:
                cure = "Give 'column' or 'reached'."
                yield fault(source, f"{name} is read in two ways", cure)
    words = {name for thing in known.values() for name in thing.spellings.values()}
    words |= set(yes_or_no().values())
    spellings = {one for thing in known.values() for one in thing.spellings} | set(yes_or_no())
    for word, name in log.words.items():
        is_month = name[:4].isdigit()
        if spelled(name) not in spellings and not is_month:
            message = f"'{word}' is said to mean '{name}', which no column knows"
            yield fault(log.source(f"words.{word}"), message, nearest(name, sorted(words)))


def outcome_ways(
    log: CaseLog, columns: Columns, plan: Plan
) -> tuple[tuple[OutcomeWay, ...], list[Finding]]:
    """Return how each outcome is read, and a fault for each that cannot be.

    Parameters
    ----------
    log : CaseLog
        What the unit file says of the log; all its names must be the plan's.
    columns : Columns
        The columns that were found.
    plan : Plan
        The plan of the review.

    Notes
    -----
    A column that holds early and late is no column of yes and no. An outcome that names it is read
    from the course of the case, as is one that names nothing: the plan says as what it counts, and
    its window what time.
    """
    attributes = Attributes(plan)
    steps = {place: name for name, place in columns.places.items() if name in plan.course.steps}
    ways: list[OutcomeWay] = []
    findings: list[Finding] = []
    for name, one in log.outcomes.items():
        counted = counted_in(name, one.window, attributes)
        place = columns.of_outcomes.get(name)
        step = None if place is None else steps.get(place)
        if step is not None and plan.course.steps[step].complication:
            place = None
        way = OutcomeWay(name, one.of, place, one.reached, one.opposite, counted, step)
        ways.append(way)
        if way.is_derived and (one.column is None or step is not None):
            findings += _underivable(way, one, columns)
    return tuple(ways), findings


def _underivable(way: OutcomeWay, one: LogOutcome, columns: Columns) -> Iterator[Finding]:
    told = {STAGE, *columns.places}
    if way.counted is None or not way.counted.surely.attributes <= told:
        message = f"the log does not say who had the outcome {way.name}"
        cure = "Name its column of yes and no under 'column', or the stage that counts as it "
        cure += "under 'reached'."
        yield fault(one.source(), message, cure)
    elif one.opposite:
        message = f"{way.name} is read from the course of the case, which has no opposite"
        yield fault(one.source("opposite"), message, "Take out 'opposite'.")


def _unknown(word: str, known: list[str], what: str, source: Source) -> Iterator[Finding]:
    if word not in known:
        yield fault(source, f"'{word}' is not {what} of the plan", nearest(word, known))
