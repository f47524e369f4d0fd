"""Why a unit is not compared, and what to bear in mind where it is."""

from collections.abc import Sequence

from evsyn.audit.benchmark import Benchmark
from evsyn.audit.case_mix import MixRow
from evsyn.audit.comparable import Differs
from evsyn.audit.exact import exact_interval
from evsyn.audit.reasons import Caveat, Reason
from evsyn.audit.standing import Standing
from evsyn.cells.levels import level_names
from evsyn.extraction.plan import Plan
from evsyn.terms import AS_PRINTED, NOT_STATED, Interval
from evsyn.wording.numbers import count, counted, percent, span, spread

#: Why a count is not compared, after a colon.
REASON_WORDS = {
    Reason.NOT_POOLED: "no pool was made for this question",
    Reason.NO_STUDY: "no study here reports it",
    Reason.ONE_STUDY: "one study says nothing about how far units differ",
    Reason.TWO_STUDIES: (
        "two studies say nothing about how far units differ, and their sum means something only "
        "if both share one true rate"
    ),
    Reason.ALL_ZERO: "no study saw one, so how far units differ cannot be told",
    Reason.ALL_FULL: "every case of the studies had it, so how far units differ cannot be told",
    Reason.REFUSED: "the plan does not pool this outcome",
    Reason.NO_READING: "the models did not settle, so there is no line to read",
    Reason.BASIS: "no study counts over the unit's denominator",
    Reason.TOO_MANY_CASES: "the unit has more cases than this comparison is made for",
    Reason.CASE_MIX: "their case mix need not be the unit's",
}

_CAVEATS = {
    Caveat.UNRELIABLE: "Unreliable: {k}, where five are the least for a verdict.",
    Caveat.SPREAD_GUESSED: "The spread is a rough guess: {k}.",
    Caveat.SPREAD_NEAR_NOTHING: (
        "Next to no spread was seen between the studies ({seen}), but {k} cannot exclude more; the "
        "range uses {used}, so that ordinary units are not called unusual."
    ),
    Caveat.UNPLACED: (
        "These cases are of mixed or unstated kind and stand beside studies of mixed or unstated "
        "kind; the two mixtures need not be alike."
    ),
    Caveat.SPLIT: (
        "Other groups of this level are counted over another denominator or window and are not "
        "added to it."
    ),
    Caveat.PARTIAL: "Not every group of this level reports the outcome.",
    Caveat.NOT_BY_PATIENT: "The unit does not count by patient, as most studies do.",
    Caveat.FOLLOWED_SHORTER: (
        "Not every case was followed to the end of the window, so events may have been missed."
    ),
}

_DIFFERS = {
    Differs.BASIS: "Denominators differ: {bases}.",
    Differs.BASES_MIXED: "Denominators differ: {bases}.",
    Differs.BASES_NOT_STATED: "Denominators are not all stated: {bases}.",
    Differs.WINDOWS: "Windows differ or are not stated: {windows}.",
    Differs.WINDOW_SHORTER: (
        "The unit looked for a shorter time than the studies ({windows}), so more may be said of "
        "it, but not fewer."
    ),
    Differs.WINDOW_LONGER: (
        "The unit looked for a longer time than the studies ({windows}), so fewer may be said of "
        "it, but not more."
    ),
    Differs.WINDOW_OF_SUCCESS: (
        "The unit looked for another length of time than the studies ({windows}); a success may be "
        "gained or lost between, so neither more nor fewer is said."
    ),
    Differs.WINDOW_OPEN: (
        "The window has no fixed length ({windows}), so follow-up may have been longer on one side."
    ),
}


def reason_sentences(standing: Standing, plan: Plan) -> list[str]:
    """Say why there is no comparison, with both counts side by side."""
    if standing.reason is None:
        return []
    said = f"No comparison: {REASON_WORDS[standing.reason]}"
    if standing.reason is Reason.REFUSED:
        said += f" ({(plan.outcomes[standing.outcome].do_not_pool or '').rstrip('.')})"
    if standing.reason is Reason.CASE_MIX:
        said = f"Not set against all studies together: {REASON_WORDS[standing.reason]}"
    sides = [f"{said}.", *_both_counts(standing)]
    if standing.mix:
        whole = None if standing.benchmark is None else standing.benchmark.total
        sides.append(mix_sentence(standing.mix, plan, whole))
    return sides


def _both_counts(standing: Standing) -> list[str]:
    found = standing.benchmark
    if found is None or found.k == 0 or standing.interval is None:
        return []
    studies = counted(found.k, "study", "studies")
    if found.events is None or found.total is None:
        reports = "reports it" if found.k == 1 else "report it; their counts are not added up"
        return [f"{studies} {reports}."]
    crude = found.crude or exact_interval(found.events, found.total)
    theirs = _with_interval(found.events, found.total, crude)
    ours = _with_interval(standing.events, standing.total, standing.interval)
    studies += " together" if found.k > 1 else ""
    said = f"Side by side, exact 95% intervals: the unit {ours}; {studies} {theirs}."
    if found.one_sided is None:
        return [said]
    way = "up" if found.events == 0 else "down"
    return [
        said,
        f"For the studies, rates {way} to {percent(found.one_sided)} remain possible "
        "(one-sided 95%).",
    ]


def _with_interval(events: int, total: int, limits: Interval) -> str:
    return f"{count(events, total)} ({percent(events / total)}; {span(limits.low, limits.high)})"


def mix_sentence(mix: tuple[MixRow, ...], plan: Plan, whole: int | None) -> str:
    """Print both case mixes, stratum by stratum.

    Parameters
    ----------
    mix : tuple of MixRow
        Cases by level.
    plan : Plan
        The plan, for its words.
    whole : int or None
        Cases of the pool over all studies; a sum of levels that differs from it is told.
    """
    parts = []
    for stratum in dict.fromkeys(row.stratum for row in mix):
        rows = [row for row in mix if row.stratum == stratum]
        ours, theirs = sum(row.unit_total for row in rows), sum(row.pool_total for row in rows)
        words = level_names(plan.strata[stratum])
        told = "; ".join(
            f"{words[row.level]} {_share(row.unit_total, ours)} against "
            f"{_share(row.pool_total, theirs)}"
            for row in rows
        )
        parts.append(f"{plan.strata[stratum].label}: {told}{_sum_words(theirs, whole)}")
    return f"Case mix, the unit against the studies. {'. '.join(parts)}."


def _sum_words(levels: int, whole: int | None) -> str:
    """Say that the levels of the studies do not sum to the whole; empty where they do."""
    if whole is None or levels == whole:
        return ""
    said = f"; levels sum to {levels:,}"
    if levels > whole:
        return f"{said}, since some patients stand in two"
    return f"{said} of {whole:,}"


def _share(part: int, whole: int) -> str:
    return f"{count(part, whole)} ({percent(part / whole)})" if whole else "none"


def caveat_sentences(standing: Standing, plan: Plan) -> list[str]:
    """Say what to bear in mind, the differences of denominator and window first."""
    found, comparison = standing.benchmark, standing.comparison
    compared = comparison is not None or standing.reason is Reason.BASIS
    differs = standing.differs if compared else ()
    used = None if comparison is None else comparison.tau
    return remark_sentences(differs, standing.caveats, found, used, plan)


def remark_sentences(
    differs: Sequence[Differs],
    caveats: Sequence[Caveat],
    found: Benchmark | None,
    used: float | None,
    plan: Plan,
) -> list[str]:
    """Say what to bear in mind of a comparison.

    Parameters
    ----------
    differs : sequence of Differs
        How denominators and windows differ.
    caveats : sequence of Caveat
        What else to bear in mind.
    found : Benchmark or None
        The pool, where there is one.
    used : float or None
        The spread that was used, log-odds.
    plan : Plan
        The plan, for its words.
    """
    words = {"bases": "", "windows": "", "k": "", "seen": "", "used": ""}
    if found is not None:
        words["k"] = counted(found.k, "study", "studies")
        words["bases"] = "; ".join(_basis_words(basis, k, plan) for basis, k in found.bases)
        words["windows"] = "; ".join(_window_words(name, k, plan) for name, k in found.windows)
        words["seen"] = "" if found.tau is None else spread(found.tau)
    words["used"] = "" if used is None else spread(used)
    told = list(differs)
    if Differs.BASES_MIXED in told and Differs.BASES_NOT_STATED in told:
        told.remove(Differs.BASES_NOT_STATED)
    said = [_DIFFERS[item] for item in told] + [_CAVEATS[item] for item in caveats]
    return [sentence.format(**words) for sentence in said]


def _basis_words(basis: str, k: int, plan: Plan) -> str:
    studies = counted(k, "study", "studies")
    if basis == AS_PRINTED:
        return f"{studies} {'does not name its' if k == 1 else 'do not name their'} denominator"
    return f"{studies} {'counts' if k == 1 else 'count'} {plan.denominators.get(basis, basis)}"


def _window_words(window: str, k: int, plan: Plan) -> str:
    studies = counted(k, "study", "studies")
    if window == NOT_STATED or window not in plan.windows:
        return f"{studies} {'does' if k == 1 else 'do'} not state the window"
    return f"{studies} looked {plan.windows[window].label}"
