"""What a column of a log may hold, as the plan names it."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from enum import StrEnum

from evsyn.extraction.case_log.spelling import UNKNOWN_WORDS, spelled
from evsyn.extraction.flow.sets import BOTH, EARLY, LATE, NO, YES
from evsyn.extraction.plan import LabelledStratum, Plan
from evsyn.terms import MIXED, NOT_STATED

#: Of a complication had at some time that is not told; of anything that is not known.
EVER, UNKNOWN = "ever", "unknown"

MONTH, REACHED, DEVICES, PATIENT_END, DEVICE_END = (
    "month", "reached", "devices", "patient_end", "device_end",
)  # fmt: skip
OPERATOR, REF = "operator", "ref"
#: What the two names of a complication mean that do not say so themselves.
_OF_COMPLICATION = {BOTH: "early and late", EVER: "yes, at a time not told"}


class Kind(StrEnum):
    """How the cells of a column are read."""

    MONTH = "month"
    WORD = "word"
    WORDS = "words"
    NUMBER = "number"
    WHOLE = "whole"
    TEXT = "text"


@dataclass(frozen=True, slots=True)
class Thing:
    """Something a column may tell of each case.

    Parameters
    ----------
    name, label : str
        Its name and its words; a heading equal to either is its column.
    kind : Kind
        How its cells are read.
    spellings : dict
        For words: each spelling that is understood, and the name it stands for.
    meanings : dict
        What some of the names mean, where that is not the name itself.
    """

    name: str
    label: str
    kind: Kind
    spellings: dict[str, str] = field(default_factory=dict)
    meanings: dict[str, str] = field(default_factory=dict)


def yes_or_no() -> dict[str, str]:
    """Return the spellings of yes, no and unknown."""
    return _spellings({YES: ("y", "true", "1"), NO: ("n", "false", "0"), UNKNOWN: UNKNOWN_WORDS})


def things(plan: Plan) -> dict[str, Thing]:
    """Return all that a log may hold under a plan, by name.

    Where two things have one name, the first of these stands: what every log has, then strata,
    steps, and facts about an arm.
    """
    found: dict[str, Thing] = {}
    for thing in (*_of_every_log(plan), *_strata(plan), *_steps(plan), *_facts(plan)):
        found.setdefault(thing.name, thing)
    return found


def fact_names(plan: Plan) -> list[str]:
    """Return the facts about an arm that a log may hold: those of which no other thing is named."""
    taken = {thing.name for thing in (*_of_every_log(plan), *_strata(plan), *_steps(plan))}
    return [name for name in plan.characteristics.arm if name not in taken]


def _of_every_log(plan: Plan) -> Iterator[Thing]:
    course = plan.course
    yield Thing(MONTH, "month", Kind.MONTH)
    stages = {stage: (plan.denominators.get(stage, stage),) for stage in plan.flow}
    yield Thing(REACHED, "furthest stage", Kind.WORD, _spellings(stages))
    yield Thing(DEVICES, "number of devices", Kind.WHOLE)
    ends = {name: (label,) for name, label in course.patients_end.items()}
    unknown = {UNKNOWN: UNKNOWN_WORDS}
    meant = _meanings(course.patients_end)
    yield Thing(PATIENT_END, "end of patient", Kind.WORD, _spellings({**ends, **unknown}), meant)
    of_devices = {name: (end.label,) for name, end in course.devices_end.items()}
    meant = _meanings({name: end.label for name, end in course.devices_end.items()})
    spellings = _spellings({**of_devices, **unknown})
    yield Thing(DEVICE_END, "end of device", Kind.WORDS, spellings, meant)
    if plan.audit.roles:
        roles = {name: (label,) for name, label in plan.audit.roles.items()}
        yield Thing(OPERATOR, "role of operator", Kind.WORD, _spellings({**roles, **unknown}))
    yield Thing(REF, "reference", Kind.TEXT)


def _strata(plan: Plan) -> Iterator[Thing]:
    for name, stratum in plan.strata.items():
        if isinstance(stratum, LabelledStratum):
            levels, meant = _levels(stratum.levels), _meanings(stratum.levels)
            yield Thing(name, stratum.label, Kind.WORD, levels, meant)


def _steps(plan: Plan) -> Iterator[Thing]:
    had = {
        NO: ("n", "none", "never", "false", "0"),
        EARLY: (),
        LATE: (),
        BOTH: ("early and late", "early & late", "early, late"),
        EVER: ("yes", "y", "true", "at any time"),
        UNKNOWN: UNKNOWN_WORDS,
    }
    for name, step in plan.course.steps.items():
        if step.complication:
            yield Thing(name, step.label, Kind.WORD, _spellings(had), _OF_COMPLICATION)
        else:
            yield Thing(name, step.label, Kind.WORD, yes_or_no())


def _facts(plan: Plan) -> Iterator[Thing]:
    for name, fact in plan.characteristics.arm.items():
        if fact.kind == "choice":
            levels, meant = _levels(fact.levels), _meanings(fact.levels)
            yield Thing(name, fact.label, Kind.WORD, levels, meant)
        else:
            kind = Kind.NUMBER if fact.kind == "number" else Kind.TEXT
            yield Thing(name, fact.label, kind)


def _meanings(labels: Mapping[str, str]) -> dict[str, str]:
    """Return the labels that say more than their name."""
    return {name: label for name, label in labels.items() if spelled(name) != spelled(label)}


def _levels(levels: dict[str, str]) -> dict[str, str]:
    words = {name: (label,) for name, label in levels.items()}
    return _spellings({**words, MIXED: (), NOT_STATED: UNKNOWN_WORDS})


def _spellings(words: Mapping[str, tuple[str, ...]]) -> dict[str, str]:
    """Return every spelling of some names; a name goes before another's label."""
    names = {spelled(name): name for name in words}
    labels = {spelled(label): name for name, listed in words.items() for label in listed}
    return names | labels | names
