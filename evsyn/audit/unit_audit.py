"""Everything an audit finds of a unit's own figures."""

from dataclasses import dataclass

from evsyn.audit.ascertainment import Ascertainment, ascertainment
from evsyn.audit.looks import Looks, looks
from evsyn.audit.own_series import OwnAlarm, own_alarms
from evsyn.audit.standing import Standing, standings
from evsyn.cells.cell import Question
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
    looks : Looks
        How many verdicts were given.
    """

    unit: Unit
    ascertainment: Ascertainment
    alarms: tuple[OwnAlarm, ...]
    standings: tuple[Standing, ...]
    looks: Looks


def unit_audit(review: Review, unit: Unit) -> UnitAudit:
    """Pool what the unit reports, its own series left out, and place each of its counts.

    Parameters
    ----------
    review : Review
        The review to set it against.
    unit : Unit
        The unit's figures, without faults.
    """
    placed = standings(unit, unit_answers(review, unit), review.plan)
    return UnitAudit(
        unit=unit,
        ascertainment=ascertainment(unit),
        alarms=own_alarms(unit, review),
        standings=placed,
        looks=looks(placed),
    )


def unit_answers(review: Review, unit: Unit) -> Answers:
    """Pool every question a unit's counts may be set against, its own series left out."""
    plan = review.plan
    reported = {name for group in unit.groups for name in group.outcomes}
    outcomes = [name for name in plan.outcomes if name in reported]
    asked: list[Question] = list(questions(plan, outcomes, list(labelled_strata(plan))))
    return answer_questions(review, asked, without=unit.own_studies)
