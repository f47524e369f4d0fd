"""The verdict, or why there is none, in a few words for table cells."""

from evsyn.audit.reasons import Reason
from evsyn.audit.verdict import Verdict

VERDICT_WORDS = {
    Verdict.MORE: "more than the range",
    Verdict.FEWER: "fewer than the range",
    Verdict.WITHIN: "within the range",
    Verdict.NONE: "no verdict",
}

_NO_VERDICT = {
    Reason.NOT_POOLED: "not pooled",
    Reason.NO_STUDY: "no study",
    Reason.ONE_STUDY: "one study",
    Reason.TWO_STUDIES: "two studies",
    Reason.ALL_ZERO: "no study saw one",
    Reason.ALL_FULL: "all cases of the studies had it",
    Reason.REFUSED: "not pooled by the plan",
    Reason.NO_READING: "no row to read",
    Reason.BASIS: "other denominator",
    Reason.NO_FOLLOW_UP: "follow-up not told",
    Reason.TOO_MANY_CASES: "too many cases",
    Reason.FEW_STUDIES: "three or four studies",
    Reason.NO_SPREAD: "spread not known",
    Reason.TOO_FEW_CASES: "too few cases",
    Reason.WINDOW: "windows differ",
}


def verdict_words(verdict: Verdict, reason: Reason | None) -> str:
    """Write the verdict, and where there is none its reason.

    Parameters
    ----------
    verdict : Verdict
        The verdict.
    reason : Reason or None
        Why there is none.
    """
    said = VERDICT_WORDS[verdict]
    short = None if reason is None else _NO_VERDICT.get(reason)
    return said if verdict is not Verdict.NONE or short is None else f"{said}: {short}"
