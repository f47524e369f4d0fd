"""Everything an audit finds of a unit's own figures."""

from dataclasses import dataclass

from evsyn.audit.ascertainment import Ascertainment, ascertainment
from evsyn.audit.changes import Change, changes
from evsyn.audit.divisions import division_questions
from evsyn.audit.looks import Looks, looks
from evsyn.audit.own_series import OwnAlarm, own_alarms
from evsyn.audit.standardisation import standardisation
from evsyn.audit.standardised import Standardisation
from evsyn.audit.standing import Standing, standings
from evsyn.cells.levels import labelled_strata
from evsyn.extraction.review import Review
from evsyn.extraction.unit import Unit
from evsyn.pooling.review import Answers, answer_questions, questions


@dataclass(frozen=True, slots=True)
class UnitAudit:
    """Where a unit stands.

    Parameters
    ----------
    unit : Unit
        Its figures.
    ascertainment : Ascertainment
        Cases counted against cases there should be.
    alarms : tuple of OwnAlarm
        Studies that may be its own and stay in the benchmark.
    standings : tuple of Standing
        Each count by level, and the whole.
    wholes : tuple of Standardisation
        The whole of each outcome, against what the unit's own case mix would give.
    changes : tuple of Change
        Each count by level against the one of an earlier period; empty without one.
    looks : Looks
        How many verdicts were given.
    """

    unit: Unit
    ascertainment: Ascertainment
    alarms: tuple[OwnAlarm, ...]
    standings: tuple[Standing, ...]
    wholes: tuple[Standardisation, ...]
    changes: tuple[Change, ...]
    looks: Looks

    def whole(self, outcome: str) -> Standardisation | None:
        """Return what became of the whole count of an outcome."""
        return next((whole for whole in self.wholes if whole.outcome == outcome), None)


def unit_audit(review: Review, unit: Unit, earlier: Unit | None = None) -> UnitAudit:
    """Pool what the unit reports, its own series left out, and place each of its counts.

    Parameters
    ----------
    review : Review
        The review to set it against.
    unit : Unit
        The unit's figures, without faults.
    earlier : Unit, optional
        The unit's figures of an earlier period.
    """
    plan = review.plan
    pooled = unit_answers(review, unit, earlier)
    placed = standings(unit, pooled, plan)
    held = (standardisation(unit, plan, outcome, pooled) for outcome in plan.outcomes)
    wholes = tuple(whole for whole in held if whole is not None)
    changed = () if earlier is None else changes(earlier, placed, pooled, plan)
    return UnitAudit(
        unit=unit,
        ascertainment=ascertainment(unit),
        alarms=own_alarms(unit, review),
        standings=placed,
        wholes=wholes,
        changes=changed,
        looks=looks(placed, wholes, changed),
    )


def unit_answers(review: Review, unit: Unit, earlier: Unit | None = None) -> Answers:
    """Pool every question a unit's counts may be set against, its own series left out."""
    plan = review.plan
    reported = {name for group in unit.groups for name in group.outcomes}
    outcomes = [name for name in plan.outcomes if name in reported]
    asked = questions(plan, outcomes, list(labelled_strata(plan)))
    own = {*unit.own_studies, *(() if earlier is None else earlier.own_studies)}
    every = dict.fromkeys([*asked, *division_questions(unit, plan)])
    return answer_questions(review, list(every), without=sorted(own))
