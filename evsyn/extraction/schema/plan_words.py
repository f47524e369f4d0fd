"""What the words of a plan mean, for whoever chooses among them."""

from collections.abc import Mapping

from evsyn.extraction.plan import Characteristic, LabelledStratum, Outcome, Plan, Window
from evsyn.terms import AS_PRINTED, MIXED, NOT_STATED

#: Words whose meaning is fixed and which may stand beside the plan's own.
FIXED = {
    AS_PRINTED: "the paper does not say whom it counts over",
    NOT_STATED: "not stated",
    MIXED: "several of these told together",
}


def denominators(plan: Plan, *, printed: bool) -> dict[str, str]:
    """Return each denominator basis and its words; in a paper it may also be as printed."""
    more = {AS_PRINTED: FIXED[AS_PRINTED]} if printed else {}
    return plan.denominators | more


def windows(plan: Plan, *, unstated: bool = True) -> dict[str, str]:
    """Return each window and its words."""
    more = {NOT_STATED: FIXED[NOT_STATED]} if unstated else {}
    return {name: _window(window) for name, window in plan.windows.items()} | more


def _window(window: Window) -> str:
    if window.days is not None or window.ends is not None:
        return window.label
    return f"{window.label} (open: it depends on how long they were followed)"


def strata(plan: Plan) -> dict[str, LabelledStratum]:
    """Return the strata that an extract names a level of."""
    return {k: s for k, s in plan.strata.items() if isinstance(s, LabelledStratum)}


def levels(one: LabelledStratum | Characteristic) -> dict[str, str]:
    """Return each level and its words, those included that place a group in none."""
    return one.levels | {word: FIXED[word] for word in (MIXED, NOT_STATED)}


def stratum_words(stratum: LabelledStratum) -> str:
    """Return what a stratum asks, and where to look for it."""
    more = f" ({stratum.look_up})" if stratum.look_up else ""
    return f"{stratum.label}: {stratum.asks}{more}"


def outcome_words(outcome: Outcome, plan: Plan) -> str:
    """Return what counts as an outcome, over whom it is taken, and in what time."""
    told = [outcome.label]
    if outcome.definition:
        told.append(outcome.definition)
    told.append("taken over " + ", ".join(_targets(outcome.denominators, plan.denominators)))
    if outcome.windows:
        labels = {name: window.label for name, window in plan.windows.items()}
        told.append("looked for " + ", ".join(_targets(outcome.windows, labels)))
    return "; ".join(told)


def _targets(names: list[str], words: Mapping[str, str]) -> list[str]:
    return [f"{name} ({words.get(name, name)})" for name in names]
