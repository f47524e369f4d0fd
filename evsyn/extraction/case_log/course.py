"""What may be true of one case, as far as its row tells, and what cannot be."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from evsyn.extraction.case_log.things import EVER, UNKNOWN
from evsyn.extraction.flow.attributes import Attributes
from evsyn.extraction.flow.sets import BOTH, EARLY, HAD, LATE, NO, STAGE, YES, Cases
from evsyn.extraction.plan import Plan

_SAID: dict[str, frozenset[str]] = {
    YES: frozenset({YES}),
    NO: frozenset({NO}),
    EARLY: frozenset({EARLY}),
    LATE: frozenset({LATE}),
    BOTH: frozenset({BOTH}),
    EVER: frozenset({EARLY, LATE, BOTH}),
}


@dataclass(frozen=True, slots=True)
class Clash:
    """Something that cannot be true of a case.

    Parameters
    ----------
    thing : str
        The step or outcome at fault, by whose column it is told.
    message : str
        What cannot be.
    of_outcome : bool
        Whether it is an outcome, which may have the name of a step.
    """

    thing: str
    message: str
    of_outcome: bool = False


class Course:
    """The values that a case's furthest stage and each of its steps may have.

    Parameters
    ----------
    plan : Plan
        The plan of the review.
    reached : str
        Furthest stage of the case.
    said : mapping
        What the row says of each step; steps that are not there may be anything.
    """

    def __init__(self, plan: Plan, reached: str, said: Mapping[str, str]) -> None:
        self._plan = plan
        self._attributes = Attributes(plan)
        self.may: dict[str, frozenset[str]] = {STAGE: frozenset({reached})}
        for name in plan.course.steps:
            every = frozenset(self._attributes.values(name))
            self.may[name] = _SAID.get(said.get(name, UNKNOWN), every)

    def reaches(self, stage: str) -> bool:
        """Return whether the case came as far as a stage."""
        return self.surely(self._attributes.reached(stage))

    def surely(self, cases: Cases) -> bool:
        """Return whether the case is one of these, whatever is not known of it."""
        return all(self.may[name] <= values for name, values in cases.allowed)

    def perhaps(self, cases: Cases) -> bool:
        """Return whether the case may be one of these."""
        return all(self.may[name] & values for name, values in cases.allowed)

    def narrow(self, cases: Cases) -> bool:
        """Learn that the case is one of these; return whether it can be."""
        if not self.perhaps(cases):
            return False
        for name, values in cases.allowed:
            self.may[name] &= values
        return True

    def narrow_not(self, cases: Cases) -> bool:
        """Learn that the case is none of these, which hang on one thing; say if it can be."""
        return self.narrow(self._attributes.opposite(cases))

    def settle(self) -> Iterator[Clash]:
        """Learn what follows by the plan: a step happens only within its stage or step."""
        steps = self._plan.course.steps
        for _ in steps:
            before = dict(self.may)
            for name, step in steps.items():
                within = self._attributes.had(step.within)
                if not self.perhaps(within):
                    if NO not in self.may[name]:
                        missed = f"'{step.within}' is no"
                        if step.within in self._plan.flow:
                            missed = f"did not reach '{step.within}'"
                        yield Clash(name, f"{step.label}, and {missed}")
                    self.may[name] = frozenset({NO})
                elif NO not in self.may[name]:
                    self.narrow(within)
            if before == self.may:
                return

    def said_of(self, step: str) -> str:
        """Return what is known of a step, in the words of a case."""
        may = self.may[step]
        if len(may) == 1:
            return next(iter(may))
        return EVER if may <= HAD else UNKNOWN
