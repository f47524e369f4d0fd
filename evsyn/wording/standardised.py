"""A unit's whole against what its own case mix would give, in words."""

from collections.abc import Sequence

from evsyn.audit.comparable import Differs
from evsyn.audit.divisions import Refusal, Stop
from evsyn.audit.reasons import Reason
from evsyn.audit.standardised import Standardisation, Standardised, StandardisedLevel
from evsyn.audit.total_notice import TotalNotice
from evsyn.audit.verdict import Verdict
from evsyn.extraction.plan import Plan
from evsyn.pooling.review import group_label
from evsyn.terms import UNPLACED, Better
from evsyn.wording.audit_caveats import REASON_WORDS
from evsyn.wording.audit_verdict import SIDE, action_words, marks, withheld_words
from evsyn.wording.chances import (
    called_words,
    how_many,
    noticed_words,
    place_words,
    range_words,
    tail_words,
)
from evsyn.wording.numbers import count, counted, percent

NOT_COMPARABLE = (
    "Observed over expected is this unit's own: two units' ratios are not comparable with each "
    "other, since each is weighted by its own case mix."
)

NO_LEVEL_LEFT_OUT = (
    "One level without such a pool stops the total: to leave its cases out would change what is "
    "compared."
)

_REASONS = {
    Reason.FEW_STUDIES: "three or four studies are too few for a verdict",
    Reason.NO_SPREAD: "how far units differ could not be estimated",
    Reason.WINDOW: "the windows differ, so neither more nor fewer may be said",
    Reason.NO_FOLLOW_UP: "the file does not say in numbers how long the cases were followed",
    Reason.TWO_STUDIES: "two studies say nothing about how far units differ",
}

_STOPS = {
    Stop.SPLIT: (
        "its groups are counted over different denominators or windows, and are not added up"
    ),
    Stop.NO_STRATUM: "no group of the unit is labelled with a level",
}

#: Below this number of studies their spread is a rough guess.
_ROUGH = 10


def standardised_sentences(answer: Standardisation, plan: Plan) -> tuple[str, ...]:
    """Say where a unit's whole stands against what its own case mix would give.

    Parameters
    ----------
    answer : Standardisation
        What became of the whole.
    plan : Plan
        The plan, for its words.

    Returns
    -------
    tuple of str
        Observed and expected; the levels; the verdict with what could not have been shown; the
        position; the average; the sensitivity; what to bear in mind. Without a comparison, why.
    """
    found = answer.found
    if found is None:
        return refused_sentences(answer, plan)
    said = [
        expected_sentence(answer, found, plan),
        levels_sentence(found, plan),
        passed_over_sentence(answer.refused, plan),
        whole_verdict_sentence(answer, found),
        f"{place_words(found.ordinary, 'ordinary new units with this case mix')}.",
    ]
    if found.reason is not Reason.WINDOW:
        said += [whole_average_sentence(answer, found), separate_sentence(found)]
    said += [*_caveats(answer, found, plan), NOT_COMPARABLE]
    return tuple(sentence for sentence in said if sentence)


def refused_sentences(answer: Standardisation, plan: Plan) -> tuple[str, ...]:
    """Say why a whole cannot be held against what its own case mix would give."""
    told = "; ".join(_refusal(item, plan) for item in answer.refused)
    said = f"The whole cannot be set against what its own case mix would give: {told}."
    by_level = any(item.question is not None for item in answer.refused)
    return (said, NO_LEVEL_LEFT_OUT) if by_level else (said,)


def _refusal(item: Refusal, plan: Plan) -> str:
    """Name a division with the level that stops it, and why."""
    if isinstance(item.reason, Stop):
        return _STOPS[item.reason]
    words = _REASONS.get(item.reason) or REASON_WORDS[item.reason]
    if item.question is None:
        return words
    crossed = ", crossed" if len(item.strata) > 1 else ""
    level = group_label(plan, item.question)
    return f"by {_strata(item.strata, plan)}{crossed} ({level}: {words})"


def _strata(strata: Sequence[str], plan: Plan) -> str:
    return " and ".join(plan.strata[name].label.lower() for name in strata)


def expected_sentence(answer: Standardisation, found: Standardised, plan: Plan) -> str:
    """Give observed and expected, and their ratio with its exact limits."""
    words, ratio = plan.outcomes[answer.outcome], found.ratio
    seen = counted(answer.events, words.event, words.events)
    excess = f"{abs(found.excess):.1f} {'more' if found.excess > 0 else 'fewer'} than that"
    if excess.startswith("0.0 "):
        excess = "about as many"
    levels = counted(len(found.levels), "level", "levels")
    cases = counted(answer.total, "case", "cases")
    limits = ratio.interval
    over = (
        f"observed over expected {ratio.value:.2f} (exact {100 * limits.level:g}% limits "
        f"{limits.low:.2f} to {limits.high:.2f}, for chance in this count alone)"
    )
    if answer.better is Better.MORE:
        over = f"without one, {ratio.observed:,} against {ratio.expected:.1f}: {over}"
    return (
        f"Against its own case mix, by {_strata(found.strata, plan)} ({levels}): {seen} among "
        f"{cases}, where the mean rates of the studies would give {found.expected:.1f} "
        f"({excess}); {over}."
    )


def levels_sentence(found: Standardised, plan: Plan) -> str:
    """Give what each level adds to the expected count."""
    told = "; ".join(
        f"{group_label(plan, level.question)} {level.expected:.1f} of {level.total:,} "
        f"({counted(level.benchmark.k, 'study', 'studies')}), {level.events:,} seen"
        for level in found.levels
    )
    return f"Expected by level: {told}."


def passed_over_sentence(refused: Sequence[Refusal], plan: Plan) -> str:
    """Say which divisions were passed over, and why; empty where the finest was used."""
    if not refused:
        return ""
    return f"Passed over: {'; '.join(_refusal(item, plan) for item in refused)}."


def whole_verdict_sentence(answer: Standardisation, found: Standardised) -> str:
    """Give the verdict and, in the same sentence, what these numbers could not have shown."""
    seen, limits = count(answer.events, answer.total), found.limits
    differs = [item for level in found.levels for item in level.differs]
    tail = f"{tail_words(answer.events, answer.total, is_high=found.is_high)}: "
    tail += how_many(found.ordinary, "ordinary new unit", is_high=found.is_high) + marks(differs)
    span = f"the range of {range_words(limits)} that ordinary new units with this case mix show"
    if found.verdict is Verdict.NONE:
        return f"{withheld_words(found.reason)} {seen} beside {span} ({tail})."
    said = f"{seen} is {SIDE[found.verdict]} {span} ({tail}); {action_words(found.is_unfavourable)}"
    said += "with this one case " if answer.total == 1 else f"with these {answer.total:,} cases "
    said += called_words(limits, found.verdict, answer.total)
    if found.notice is None:
        return f"{said}, and the typical risk is too high to be doubled."
    who = whole_risk_words(found.notice, answer.better)
    return f"{said}, and {who} {noticed_words(found.notice, limits, answer.better)}."


def whole_risk_words(notice: TotalNotice, better: Better) -> str:
    """Name a unit at twice the typical unfavourable risk at every level."""
    said = "a unit at twice the typical risk at every level"
    if better is Better.MORE:
        said = "a unit that at every level falls short twice as often as is typical"
    capped = ", taken no higher than 95%" if notice.is_capped else ""
    return f"{said}{capped} ({percent(notice.doubled)} of these cases)"


def whole_average_sentence(answer: Standardisation, found: Standardised) -> str:
    """Say how the count compares if every unit shared the typical rates, and with what power."""
    said = (
        "Against the average: if every unit shared the typical rate of each level, "
        f"{tail_words(answer.events, answer.total, is_high=found.is_high)} would be seen in "
        f"{how_many(found.average, 'unit', is_high=found.is_high)}"
    )
    if found.notice is None:
        return f"{said}."
    notice = "this case notices" if answer.total == 1 else f"these {answer.total:,} cases notice"
    return (
        f"{said}; against that average, by a one-sided 5% test, {notice} "
        f"{whole_risk_words(found.notice, answer.better)} with a chance of "
        f"{percent(found.notice.notice_average)}."
    )


def separate_sentence(found: Standardised) -> str:
    """Say what the range would be if every level went its own way; empty with one level."""
    apart = found.separately
    if apart is None:
        return ""
    said = (
        "The range takes a unit that stands high at one level to stand as high at the others; "
        f"were every level to go its own way it would be {range_words(apart.limits)}"
    )
    if not found.judged:
        return f"{said}."
    if apart.verdict is found.verdict:
        return f"{said}, and the verdict the same."
    told = f"{SIDE[apart.verdict]} the range"
    if apart.verdict is Verdict.NONE:
        told = "outside the range on the side that is not judged"
    return f"{said}, and the count {told}; the verdict stays the one above."


def _caveats(answer: Standardisation, found: Standardised, plan: Plan) -> list[str]:
    def named(levels: Sequence[StandardisedLevel]) -> str:
        return "; ".join(group_label(plan, level.question) for level in levels)

    rough = [level for level in found.levels if level.benchmark.k < _ROUGH]
    larger = [level for level in found.levels if level.used_larger_spread]
    shorter = [level for level in found.levels if Differs.WINDOW_SHORTER in level.differs]
    longer = [level for level in found.levels if Differs.WINDOW_LONGER in level.differs]
    told = []
    if rough:
        told.append(
            f"The spread is a rough guess, from fewer than {_ROUGH} studies: {named(rough)}."
        )
    if larger:
        told.append(
            "Next to no spread was seen between the studies, and the range uses the larger one "
            f"they cannot exclude: {named(larger)}."
        )
    if shorter:
        told.append(
            "The unit looked for a shorter time than the studies, so more may be said of the "
            f"whole, but not fewer: {named(shorter)}."
        )
    if longer:
        told.append(
            "The unit looked for a longer time than the studies, so fewer may be said of the "
            f"whole, but not more: {named(longer)}."
        )
    if any(UNPLACED in level.question.levels for level in found.levels):
        told.append(
            "Cases of mixed or unstated kind stand beside studies of mixed or unstated kind; the "
            "two mixtures need not be alike."
        )
    if answer.unknown:
        cases = counted(answer.unknown, "further case has", "further cases have")
        told.append(f"{cases} no known outcome, and count on neither side.")
    return told
