"""The verdict in two or three words, for table cells."""

from evsyn.audit.verdict import Verdict

VERDICT_WORDS = {
    Verdict.MORE: "more than the range",
    Verdict.FEWER: "fewer than the range",
    Verdict.WITHIN: "within the range",
    Verdict.NONE: "no verdict",
}
