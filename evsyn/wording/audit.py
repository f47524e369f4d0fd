"""What an audit says of a unit, sentence by sentence, in the order it is read."""

from evsyn.audit.ascertainment import Ascertainment
from evsyn.audit.benchmark import Benchmark
from evsyn.audit.looks import Looks
from evsyn.audit.power import cases_to_exclude
from evsyn.audit.reasons import Reason
from evsyn.audit.standing import Standing
from evsyn.cells.levels import level_names
from evsyn.extraction.plan import Plan
from evsyn.terms import NOT_STATED, OVERALL
from evsyn.wording.audit_caveats import caveat_sentences, reason_sentences
from evsyn.wording.audit_unknown import NO_FOLLOW_UP, unknown_sentence
from evsyn.wording.audit_verdict import (
    ORDINARY_MEANS,
    average_sentence,
    position_sentence,
    sensitivity_sentence,
    verdict_sentence,
)
from evsyn.wording.chances import units_words
from evsyn.wording.numbers import count, counted, percent, span, spread
from evsyn.wording.rows import ROW_IN_SENTENCE

ASSUMPTION = (
    "All this takes the unit to be one more of the kind that publish; published series often come "
    "from enthusiasts, and whether the unit is like them is for the reader to judge."
)

WITHIN_MEANS = "Within the range means not shown to differ, and no more."

GOVERNANCE = (
    "These figures support local governance and never replace it: what follows from them, and "
    "whether anything is escalated, a person decides."
)

#: Health and Social Care Act 2008 (Regulated Activities) Regulations 2014, regulation 20.
CANDOUR = (
    "A single harmful event may be a notifiable incident whatever the rate (in England the "
    "duty of candour, Regulation 20): the patient is told, with an apology, which admits no "
    "liability, and a written follow-up. Whether one was is judged case by case, not here."
)


def ascertainment_sentence(found: Ascertainment, population: str) -> str:
    """Say how many of the expected cases are counted; this stands before all else.

    Parameters
    ----------
    found : Ascertainment
        The counts.
    population : str
        Who is counted, as ``patients``.
    """
    source = f"expected number from: {found.according_to}"
    if found.counted > found.expected:
        said = (
            f"{found.counted:,} {population} are counted where {found.expected:,} were expected "
            f"({source}), so check both lists"
        )
    else:
        said = (
            f"{count(found.counted, found.expected)} {population} expected are counted "
            f"({percent(found.share)}; {source})"
        )
    if found.left_out:
        said += f"; {counted(found.left_out, 'case', 'cases')} of the period left out, with reasons"
    return f"{said}. {_complete_words(found)}"


def _complete_words(found: Ascertainment) -> str:
    says = "the file says " + ("complete" if found.says_complete else "it is not complete")
    if not found.unaccounted:
        return "The file says it is complete." if found.says_complete else f"{says.capitalize()}."
    missing = counted(found.unaccounted, "expected case is", "expected cases are")
    link = ", though " if found.says_complete else "; "
    return f"{missing} not accounted for{link}{says}."


def invented_sentence(unit: bool, review: bool) -> tuple[str, ...]:
    """Say which side is invented where only one is; nothing where both or neither are.

    Parameters
    ----------
    unit, review : bool
        Whether the unit's figures, and the review, are invented.
    """
    if unit is review:
        return ()
    if unit:
        return ("The unit's figures are invented; the review it is set against is not.",)
    return ("The review is invented, so nothing here tells where the unit stands.",)


def standing_sentences(standing: Standing, plan: Plan) -> tuple[str, ...]:
    """Say where one count of a unit stands.

    Parameters
    ----------
    standing : Standing
        The count and its comparison.
    plan : Plan
        The plan, for its words.

    Returns
    -------
    tuple of str
        The count with its exact interval; the benchmark; the verdict with what could not have
        been shown; the position; the average; the sensitivity; what to bear in mind. Without a
        comparison, the counts of both sides and the reason.
    """
    said = [count_sentence(standing, plan), one_sided_sentence(standing)]
    said.append(unknown_sentence(standing))
    comparison, found = standing.comparison, standing.benchmark
    is_used = comparison is not None or standing.reason is Reason.CASE_MIX
    if is_used and found is not None and found.row is not None:
        said.append(benchmark_sentence(found, plan.population))
    if standing.reason is Reason.NO_FOLLOW_UP:
        said.append(NO_FOLLOW_UP)
    elif comparison is None:
        said += reason_sentences(standing, plan)
    else:
        events = plan.outcomes[standing.outcome].events
        said += [verdict_sentence(standing, comparison), position_sentence(comparison, events)]
        # What the windows could explain is not then held against the average either.
        if standing.reason is not Reason.WINDOW:
            said += [
                average_sentence(standing, comparison),
                sensitivity_sentence(standing, comparison),
            ]
    said += caveat_sentences(standing, plan)
    return tuple(sentence for sentence in said if sentence)


def closing_sentences(found: Looks) -> tuple[str, ...]:
    """Return what stands under every audit: looks, meanings, assumption, governance."""
    return (looks_sentence(found), *outside_closing())


def outside_closing() -> tuple[str, ...]:
    """Return what stands under an audit outside: all of it but how many counts lie outside."""
    return (ORDINARY_MEANS, WITHIN_MEANS, ASSUMPTION, GOVERNANCE, CANDOUR)


def count_sentence(standing: Standing, plan: Plan) -> str:
    """Say a count with its denominator, window and exact interval."""
    said = f"{plan.outcomes[standing.outcome].label}, {group_words(standing, plan)}: "
    said += count_words(standing, plan)
    if standing.interval is None:
        return f"{said}."
    limits = span(standing.interval.low, standing.interval.high)
    return (
        f"{said}; the data are compatible with a true rate from {limits} (exact two-sided 95% "
        "interval)."
    )


def count_words(standing: Standing, plan: Plan) -> str:
    """Say a count with its denominator and window, and its share where it may be read as one."""
    basis = plan.denominators.get(standing.basis, standing.basis)
    # The plan words its denominators in the plural.
    total = f"of {standing.total:,} {basis}" if standing.total > 1 else f"of 1 case among {basis}"
    number = "none" if standing.events == 0 else f"{standing.events:,}"
    if standing.events == standing.total > 1:
        number = f"all {number}"
    said = f"{number} {total}{when_words(standing, plan)}"
    if standing.interval is None:
        return said
    return f"{said} ({percent(standing.events / standing.total)})"


def when_words(standing: Standing, plan: Plan) -> str:
    """Name the window of a count after a comma; empty where it is not stated."""
    when = ""
    if standing.window != NOT_STATED and standing.window in plan.windows:
        when = f", {plan.windows[standing.window].label}"
    if standing.followed_months is not None:
        when += f" (median {standing.followed_months:g} months)"
    return when


def group_words(standing: Standing, plan: Plan) -> str:
    """Name the level in words, as ``palliation``, or ``all cases``."""
    if standing.stratum == OVERALL:
        return "all cases"
    return level_names(plan.strata[standing.stratum])[standing.level]


def one_sided_sentence(standing: Standing) -> str:
    """Say what no event, or nothing else, leaves open; empty where neither is so."""
    limit = standing.one_sided
    if limit is None:
        return ""
    is_none = standing.events == 0
    seen = f"None in {standing.total:,}" if is_none else f"All {standing.total:,}"
    if standing.total == 1:
        seen = "None in 1 case" if is_none else "The only case"
    said = (
        f"{seen}: rates {'up' if is_none else 'down'} to {percent(limit)} remain possible "
        "(one-sided 95%)"
    )
    typical = _typical_beside(standing)
    if typical is None or not 0 < typical < 1:
        return f"{said}."
    if (typical > limit) if is_none else (typical < limit):
        return f"{said}; the typical {percent(typical)} of the studies is not among them."
    needed = cases_to_exclude(typical if is_none else 1 - typical)
    without = "without one" if is_none else "with no exception"
    return (
        f"{said}, the typical {percent(typical)} of the studies among them; "
        f"{needed:,} cases {without} would be needed to rule that out."
    )


def _typical_beside(standing: Standing) -> float | None:
    """Return the typical rate where it may be held beside the unit's limit."""
    if standing.comparison is None or standing.reason is Reason.WINDOW:
        return None
    return None if standing.benchmark is None else standing.benchmark.typical


def benchmark_sentence(found: Benchmark, population: str) -> str:
    """Say what the unit is set against.

    Raises
    ------
    ValueError
        If the benchmark has no row to read.
    """
    if found.row is None or found.typical is None or found.low is None or found.high is None:
        raise ValueError("there is no row to read")
    rate = "mean rate" if found.tau is None else "typical rate"
    wide = "" if found.tau is None else f", spread {spread(found.tau)} (log-odds)"
    if found.rho is not None:
        wide = f", intraclass correlation {found.rho:.3f}"
    own = f"; ours left out ({', '.join(found.own_left_out)})" if found.own_left_out else ""
    return (
        f"Benchmark: {counted(found.k, 'study', 'studies')}, {found.total:,} {population}, "
        f"{_years(found)}; "
        f"{rate} {percent(found.typical)} ({span(found.low, found.high)}){wide}, read from "
        f"{ROW_IN_SENTENCE[found.row]}{own}."
    )


def _years(found: Benchmark) -> str:
    """Give the years of publication, and how many studies have none."""
    if found.first_year is None or found.last_year is None:
        return "years of publication not known"
    same = found.first_year == found.last_year
    said = f"published {'in ' if same else ''}{found.first_year}"
    said += "" if same else f" to {found.last_year}"
    return f"{said}, year not known in {found.years_unknown:,}" if found.years_unknown else said


def looks_sentence(found: Looks) -> str:
    """Say how many verdicts were given, and how often chance alone would put one outside."""
    if not found.made:
        return "No comparison led to a verdict."
    units = units_words(found.chance_of_any, "ordinary unit")
    if found.made == 1:
        here = "it is" if found.outside else "it is not"
        return (
            f"1 comparison with a verdict; {units} would have it outside the range by chance "
            f"alone, and here {here}."
        )
    here = f"{found.outside:,} are" if found.outside > 1 else "1 is" if found.outside else "none is"
    return (
        f"{found.made:,} comparisons with a verdict; were they independent of each other, {units} "
        f"would have at least one outside the range by chance alone, and here {here}."
    )
