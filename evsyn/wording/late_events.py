"""Events after the window of a count, which the count itself does not hold."""

from evsyn.extraction.plan import Plan
from evsyn.extraction.unit import Unit
from evsyn.wording.numbers import counted


def late_words(unit: Unit, outcome: str, plan: Plan) -> str:
    """Say how many patients had an event early, and how many more only later.

    Parameters
    ----------
    unit : Unit
        The unit's file; its complications count the early and the late ones of all cases.
    outcome : str
        An outcome, which is a complication of the same name in the file.
    plan : Plan
        The plan, for the day that parts early from late.

    Returns
    -------
    str
        As ``3 within 30 days; 1 more later``; empty where the file tells no later one.
    """
    told = unit.complications.get(outcome)
    if told is None:
        return ""
    # Who had one early and another late is one patient, so what was seen at any time goes first.
    later = told.late if told.ever is None or told.early is None else told.ever - told.early
    if not later:
        return ""
    days = counted(plan.course.early_days, "day", "days")
    if told.early is None:
        return f"{later:,} later than {days}"
    return f"{told.early:,} within {days}; {later:,} more later"


def late_sentence(unit: Unit, outcome: str, plan: Plan) -> str:
    """Say the same as a sentence that names the outcome; empty where there is none."""
    said = late_words(unit, outcome, plan)
    return f"{plan.outcomes[outcome].label}: {said}." if said else ""
