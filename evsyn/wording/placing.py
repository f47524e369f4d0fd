"""The sentences in which a page places a typed count; braces are filled by its script.

They are the audit's own sentences, cut where its further reckoning would follow.
"""

from evsyn.audit.reasons import Reason
from evsyn.audit.verdict import Verdict
from evsyn.wording.audit_verdict import (
    ORDINARY_MEANS,
    SIDE,
    action_words,
    withheld_words,
)
from evsyn.wording.verdict import verdict_words

PLACING = {
    "count": (
        "{seen} ({share}); the data are compatible with a true rate from {low} to {high} (exact "
        "two-sided 95% interval)."
    ),
    "none_seen": "None in {total}: rates up to {limit} remain possible (one-sided 95%).",
    "all_seen": "All {total}: rates down to {from} remain possible (one-sided 95%).",
    "judged": (
        "{seen} is {side} the range of {range} that ordinary new units with {cases} show ({tail}: "
        "{often}{marks}); {action}with {cases} {called}."
    ),
    "withheld": (
        "{why} {seen} beside the range of {range} that ordinary new units with {cases} show "
        "({tail}: {often}{marks})."
    ),
    "average": "The average of ordinary new units of this size is {mean} {events}.",
    "means": ORDINARY_MEANS,
    "seen": "{events} of {total}",
    "cases": "{n} cases",
    "one_case": "1 case",
    "range": "{low} to {high}",
    "range_one": "{low} only",
    "tail": "{reach} of {total}",
    "or_more": "{n} or more",
    "or_fewer": "{n} or fewer",
    "side_more": SIDE[Verdict.MORE],
    "side_fewer": SIDE[Verdict.FEWER],
    "side_within": SIDE[Verdict.WITHIN],
    "action_bad": action_words(True),
    "action_good": action_words(False),
    "action_none": action_words(None),
    "why_few": withheld_words(Reason.FEW_STUDIES),
    "why_spread": withheld_words(Reason.NO_SPREAD),
    "why_cases": withheld_words(Reason.TOO_FEW_CASES),
    "why_window": withheld_words(Reason.WINDOW),
    "why_mix": "No verdict, since the case mix of all studies need not be yours:",
    "called_many": "any count of {reach} is called so ({chance} of ordinary units)",
    "called_one": "only {reach} is called so ({chance} of ordinary units)",
    "would_more": "only {reach} would be called more ({chance} of ordinary units)",
    "would_fewer": "only {reach} would be called fewer ({chance} of ordinary units)",
    "never_more": "no count could be called more",
    "never_fewer": "no count could be called fewer",
    "both": "{first} and {second}",
    "often_one": "about 1 ordinary new unit in {n}",
    "often_ten": "about {n} in 10 ordinary new units",
    "often_all": "nearly all ordinary new units",
    "often_rare": "fewer than 1 ordinary new unit in 1,000",
    "under": "under 0.1%",
    "over": "over 99.9%",
    "under_one": "under 1%",
    "over_one": "over 99%",
    "chances": "Chances among ordinary new units of this size",
    "each": (
        "The same count against each kind of case. The verdict depends on the row chosen: choose "
        "by what your cases were, not by what it says."
    ),
    "each_row": "Your cases",
    "each_range": "Ordinary new units",
    "each_verdict": "Verdict",
    "reach": "{range} of {n}",
    "short_more": verdict_words(Verdict.MORE, None),
    "short_fewer": verdict_words(Verdict.FEWER, None),
    "short_within": verdict_words(Verdict.WITHIN, None),
    "short_few": verdict_words(Verdict.NONE, Reason.FEW_STUDIES),
    "short_spread": verdict_words(Verdict.NONE, Reason.NO_SPREAD),
    "short_cases": verdict_words(Verdict.NONE, Reason.TOO_FEW_CASES),
    "short_window": verdict_words(Verdict.NONE, Reason.WINDOW),
    "short_mix": "no verdict: case mix",
    "fewer": "fewer",
    "as_many": "as many",
    "more": "more",
    "at_least": "as many or more",
    "at_most": "as many or fewer",
    "faulty": (
        "Type whole numbers: from 1 to {most} cases, and no more events than cases. For more "
        "cases use 'evsyn audit'."
    ),
    "unknown": "The address of this page names a level that it does not hold.",
    "rows": "{shown} of {all} rows shown.",
}

#: What is said first where a whole is set against all studies.
CASE_MIX_MATTERS = (
    "All studies hold every kind of case together, and case mix matters: a unit with more of the "
    "riskier cases sees more events for that alone. For a verdict choose the kind of case you had."
)


def no_comparison(why: str) -> str:
    """Say that nothing can be set against a level, and why."""
    return f"No comparison: {why}."
