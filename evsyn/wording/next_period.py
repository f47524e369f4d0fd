"""A period against the one before, in words: the count as seen, and never the drawn rate alone."""

from collections.abc import Sequence

from evsyn.audit.next_period import LaterPeriod, NextPeriod, PeriodCount
from evsyn.audit.power import Notice
from evsyn.audit.verdict import Verdict
from evsyn.extraction.plan import Plan
from evsyn.terms import Better
from evsyn.wording.audit_verdict import SIDE, action_words, withheld_words
from evsyn.wording.chances import (
    called_words,
    how_many,
    noticed_words,
    place_words,
    range_words,
    tail_words,
)
from evsyn.wording.numbers import count, counted, percent, span

NOTHING_ALIKE = (
    "No count of this period can be set against one of the period before: none is compared with a "
    "pool and counted over the same denominator and window in both."
)

WHOLE_UNCHANGED = (
    "Level by level; the whole is not set against the period before, since its case mix may have "
    "changed."
)

_DIFFER = "units with that past already differ by more than that"


def changes_sentence(verdicts: Sequence[Verdict], first: str = "", last: str = "") -> str:
    """Sum up how a period stands against the one before.

    Parameters
    ----------
    verdicts : sequence of Verdict
        One a count that both periods hold alike.
    first, last : str
        Months of the period before; empty where no date may be told.
    """
    when = f", {first} to {last}" if first else ""
    given = [told for told in verdicts if told is not Verdict.NONE]
    outside = sum(told is not Verdict.WITHIN for told in given)
    return (
        f"Against the period before{when}: "
        f"{counted(len(verdicts), 'count', 'counts')} held alike, {len(given) or 'none'} with a "
        f"verdict, {outside or 'none'} outside what a unit with that past would show. Details at "
        "the end."
    )


def next_period_sentences(found: NextPeriod, plan: Plan, outcome: str) -> tuple[str, ...]:
    """Say what an earlier count leaves likely, and where the later one stands.

    Parameters
    ----------
    found : NextPeriod
        Both counts.
    plan : Plan
        The plan, for its words.
    outcome : str
        Outcome by its name.

    Returns
    -------
    tuple of str
        The earlier count beside the rate drawn toward ordinary units; what as many further cases
        would show if nothing changed; of the later period, where there is one, the verdict with
        what could not have been shown, and the position.
    """
    said = [earlier_sentence(found), again_sentence(found, plan.outcomes[outcome].events)]
    if found.later is not None:
        later = found.later
        said.append(later_sentence(later, plan.outcomes[outcome].better))
        said.append(
            f"{place_words(later.unchanged, 'units with that past')} among "
            f"{counted(later.count.total, 'case', 'cases')}; their average is "
            f"{later.expected_count:.1f} {plan.outcomes[outcome].events}."
        )
    return tuple(said)


def earlier_sentence(found: NextPeriod) -> str:
    """Give the earlier count as it was seen, and beside it the rate drawn toward ordinary units."""
    return (
        f"The period before: {_seen(found.earlier)}; drawn toward ordinary new units, since part "
        f"of any count is chance: {percent(found.shrunk)} "
        f"(95% range {span(found.shrunk_low, found.shrunk_high)})."
    )


def again_sentence(found: NextPeriod, events: str) -> str:
    """Say that a high count falls, and a low one rises, with nothing changed."""
    seen = found.earlier
    cases = counted(seen.total, "further case", "further cases")
    if seen.events / seen.total > found.shrunk:
        chance, way, turn = found.again.below, "fewer", "fall"
    else:
        chance, way, turn = found.again.above, "more", "rise"
    return (
        f"If nothing changed, {cases} would show {found.again_expected:.1f} {events} on average, "
        f"and {way} than {seen.events:,} with a chance of {percent(chance)}, so a {turn} alone "
        "is no sign of change (regression to the mean)."
    )


def later_sentence(later: LaterPeriod, better: Better) -> str:
    """Give the verdict and, in the same sentence, what these numbers could not have shown."""
    events, total, limits = later.count.events, later.count.total, later.limits
    tail = (
        f"{tail_words(events, total, is_high=later.is_high)}: "
        f"{how_many(later.unchanged, 'such unit', is_high=later.is_high)}"
    )
    cases = counted(total, "case", "cases")
    reach = f"the range of {range_words(limits)} that units with that past show in {cases}"
    reach += f" if nothing changed ({tail})"
    if later.verdict is Verdict.NONE:
        return f"{withheld_words(later.reason)} {_seen(later.count)} beside {reach}."
    said = f"This period {_seen(later.count)} is {SIDE[later.verdict]} {reach}; "
    said += f"{action_words(later.is_unfavourable)}with {cases} "
    said += called_words(limits, later.verdict, total, "such units")
    if later.notice is None:
        return f"{said}, and the unit's own risk is too high to be doubled."
    noticed = noticed_words(later.notice, limits, better, _DIFFER)
    return f"{said}, and {_risk(later.notice, better)} {noticed}."


def _risk(notice: Notice, better: Better) -> str:
    """Name a unit whose own risk has doubled."""
    risk = f"({percent(notice.doubled)})"
    if notice.doubled < 2 * notice.typical:
        return f"a unit where now {percent(notice.doubled)} of cases go the unwelcome way"
    if better is Better.FEWER:
        return f"twice the unit's own risk {risk}"
    return f"falling short twice as often as the unit's own rate implies {risk}"


def _seen(seen: PeriodCount) -> str:
    return (
        f"{count(seen.events, seen.total)} ({percent(seen.events / seen.total)}; exact 95% "
        f"interval {span(seen.interval.low, seen.interval.high)})"
    )
