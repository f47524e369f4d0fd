"""What can be told of a case of a unit, and what each word of a statement means."""

from dataclasses import dataclass

from evsyn.extraction.flow.sets import (
    BOTH,
    EARLY,
    END,
    GROUP,
    HAD,
    LATE,
    LEVEL,
    NO,
    NONE,
    STAGE,
    YES,
    Cases,
)
from evsyn.extraction.plan import LabelledStratum, Plan

_NOT = "not "


@dataclass(frozen=True, slots=True)
class Attributes:
    """The attributes of a case and their values.

    Parameters
    ----------
    plan : Plan
        Plan whose stages, steps, ends and levels they are.
    groups : int
        Number of groups of the unit.
    """

    plan: Plan
    groups: int = 0

    def values(self, attribute: str) -> tuple[str, ...]:
        """Return all values of an attribute, in the plan's order."""
        if attribute == STAGE:
            return tuple(self.plan.flow) or (NONE,)
        if attribute == GROUP:
            return (NONE, *map(str, range(self.groups)))
        if attribute == END:
            return (NONE, *self.plan.course.patients_end)
        if attribute.startswith(LEVEL):
            return (NONE, *self.levels(attribute.removeprefix(LEVEL).strip()))
        is_complication = self.plan.course.steps[attribute].complication
        return (NO, EARLY, LATE, BOTH) if is_complication else (NO, YES)

    def levels(self, stratum: str) -> tuple[str, ...]:
        """Return the levels of a labelled stratum."""
        found = self.plan.strata[stratum]
        return tuple(found.levels) if isinstance(found, LabelledStratum) else ()

    def reached(self, stage: str) -> Cases:
        """Return the cases that came at least as far as a stage."""
        return Cases.where(STAGE, self.plan.flow[self.plan.flow.index(stage) :])

    def had(self, thing: str) -> Cases:
        """Return the cases that reached a stage, or had a step or a complication at any time."""
        if thing in self.plan.flow:
            return self.reached(thing)
        return Cases.where(thing, HAD & set(self.values(thing)))

    def opposite(self, cases: Cases) -> Cases:
        """Return all other cases, of a set that hangs on one attribute."""
        ((attribute, allowed),) = cases.allowed
        return Cases.where(attribute, set(self.values(attribute)) - allowed)

    def meanings(self, term: str) -> list[Cases]:
        """Return every meaning of a word of a statement; none where the plan does not have it.

        A word is a stage, a step, a complication alone or followed by 'early' or 'late', an end
        of patients, or a level of a stratum; 'not' before it turns it round. A level applies to
        the patients of the groups alone.
        """
        text = " ".join(term.split())
        if text.startswith(_NOT):
            return [self.opposite(found) for found in self.meanings(text.removeprefix(_NOT))]
        course = self.plan.course
        found = [self.had(text)] if text in (*self.plan.flow, *course.steps) else []
        name, _, timing = text.partition(" ")
        if timing in (EARLY, LATE) and name in course.steps and course.steps[name].complication:
            found.append(Cases.where(name, {timing, BOTH}))
        if text in course.patients_end:
            found.append(Cases.where(END, {text}))
        for stratum in self.plan.strata:
            if text in self.levels(stratum):
                found.append(Cases.where(f"{LEVEL} {stratum}", {text}))
        return found

    def words(self) -> list[str]:
        """Return all words a statement may use."""
        course = self.plan.course
        timed = [
            f"{name} {timing}"
            for name, step in course.steps.items()
            if step.complication
            for timing in (EARLY, LATE)
        ]
        levels = [level for stratum in self.plan.strata for level in self.levels(stratum)]
        return [*self.plan.flow, *course.steps, *timed, *course.patients_end, *levels]
