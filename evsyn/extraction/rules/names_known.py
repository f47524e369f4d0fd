"""Every word an extract uses must be one the plan declares."""

from collections.abc import Iterable, Iterator, Mapping

from evsyn.extraction.faults import nearest
from evsyn.extraction.plan import Characteristic, EraStratum, LabelledStratum, Plan
from evsyn.extraction.review import Review
from evsyn.extraction.rules.rule import ReviewRule
from evsyn.extraction.study import Arm, Count, Study
from evsyn.terms import (
    AS_PRINTED,
    MIXED,
    NOT_STATED,
    OVERALL,
    UNPLACED,
    Finding,
    Severity,
    Source,
)

NAME = "names-known"


def check(review: Review) -> Iterator[Finding]:
    """Yield a fault for each unknown word, with the nearest known one."""
    plan = review.plan
    yield from _plan_words(plan)
    for study in review.studies:
        yield from _characteristics(study, plan.characteristics.study, "a study")
        for arm in study.arms:
            yield from _arm_words(arm, plan)


def unknown(word: str, known: Iterable[str], what: str, source: Source) -> Iterator[Finding]:
    """Yield a fault if ``word`` is not among the ``known``."""
    listed = sorted(known)
    if word not in listed:
        article = "an" if what[0] in "aeiou" else "a"
        message = f"'{word}' is not {article} {what} of the plan"
        yield Finding(NAME, Severity.FAULT, source, message, nearest(word, listed))


def level_words(name: str, level: str, plan: Plan, source: Source) -> Iterator[Finding]:
    """Yield a fault if a stratum, or a level of it, is not in the plan."""
    labelled = {k: s for k, s in plan.strata.items() if isinstance(s, LabelledStratum)}
    if name not in labelled:
        yield from unknown(name, labelled, "stratum", source)
    else:
        known = [*labelled[name].levels, MIXED, NOT_STATED]
        yield from unknown(level, known, f"level of '{name}'", source)


def _arm_words(arm: Arm, plan: Plan) -> Iterator[Finding]:
    for name, level in arm.strata.items():
        yield from level_words(name, level, plan, arm.source(f"strata.{name}"))
    yield from _treatment(arm, plan)
    yield from _characteristics(arm, plan.characteristics.arm, "an arm")
    for outcome, count in arm.outcomes.items():
        yield from unknown(outcome, plan.outcomes, "outcome", count.source())
        yield from _count_words(count, plan)


def _treatment(arm: Arm, plan: Plan) -> Iterator[Finding]:
    if arm.treatment is not None:
        yield from unknown(arm.treatment, plan.treatments, "treatment", arm.source("treatment"))
    elif plan.treatments:
        message = f"the arm '{arm.arm}' names no treatment, and the plan lists them"
        cure = f"Add 'treatment'; known: {', '.join(plan.treatments)}."
        yield Finding(NAME, Severity.FAULT, arm.source(), message, cure)


def _characteristics(
    record: Study | Arm, declared: Mapping[str, Characteristic], of: str
) -> Iterator[Finding]:
    for key, value in record.characteristics.items():
        source = record.source(f"characteristics.{key}")
        yield from unknown(key, declared, f"characteristic of {of}", source)
        if key in declared and declared[key].kind == "choice":
            known = [*declared[key].levels, MIXED, NOT_STATED]
            yield from unknown(value, known, f"level of '{key}'", source)


def _count_words(count: Count, plan: Plan) -> Iterator[Finding]:
    bases = [*plan.denominators, AS_PRINTED]
    yield from unknown(count.of, bases, "denominator basis", count.source("of"))
    windows = [*plan.windows, NOT_STATED]
    yield from unknown(count.window, windows, "window", count.source("window"))


def _plan_words(plan: Plan) -> Iterator[Finding]:
    for outcome in plan.outcomes.values():
        for basis in outcome.denominators:
            place = outcome.source("denominators")
            yield from unknown(basis, plan.denominators, "denominator basis", place)
        for window in outcome.windows:
            yield from unknown(window, plan.windows, "window", outcome.source("windows"))
    for stratum in plan.strata.values():
        if isinstance(stratum, EraStratum) and stratum.stands_in_for is not None:
            place = stratum.source("stands_in_for")
            yield from unknown(stratum.stands_in_for, plan.strata, "stratum", place)
    for comparison in plan.comparisons.values():
        for side in ("first", "second"):
            word = str(getattr(comparison, side))
            yield from unknown(word, plan.treatments, "treatment", comparison.source(side))
    yield from _reserved(plan)


def _reserved(plan: Plan) -> Iterator[Finding]:
    """Yield a fault where the plan declares a word whose meaning is fixed."""
    declared: dict[str, tuple[Mapping[str, object], tuple[str, ...]]] = {
        "denominators": (plan.denominators, (AS_PRINTED, NOT_STATED, MIXED)),
        "windows": (plan.windows, (AS_PRINTED, NOT_STATED, MIXED)),
        "strata": (plan.strata, (OVERALL,)),
    }
    for name, stratum in plan.strata.items():
        if isinstance(stratum, LabelledStratum):
            declared[f"strata.{name}.levels"] = (stratum.levels, (MIXED, NOT_STATED, UNPLACED))
    for path, (words, reserved) in declared.items():
        for word in reserved:
            if word in words:
                message = f"'{word}' has a fixed meaning and cannot be declared in the plan"
                place = plan.source(f"{path}.{word}")
                yield Finding(NAME, Severity.FAULT, place, message, "Use another name.")


RULE = ReviewRule(
    NAME,
    Severity.FAULT,
    "Outcomes, denominator bases, windows, strata, levels and characteristics must be words of "
    "the plan; a slip of the key would otherwise drop a study out of its pool unseen.",
    check,
)
