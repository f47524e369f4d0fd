"""What the checks found, as text and as fields."""

from collections.abc import Sequence
from textwrap import fill
from typing import Any

from evsyn.terms import Finding, Severity
from evsyn.wording.numbers import counted
from evsyn.wording.status import INVENTED

FIRST = 3
WIDTH = 80


def findings_text(
    folder: str,
    studies: int | None,
    findings: Sequence[Finding],
    *,
    invented: bool = False,
    read: str = "",
) -> str:
    """Return the sentence, the three findings that matter most, then the rest.

    Parameters
    ----------
    folder : str
        The folder as the user named it.
    studies : int or None
        Number of studies read; ``None`` where there is nothing to work with, or no review.
    findings : sequence of Finding
        All findings, the gravest first.
    invented : bool
        Whether the review is made up.
    read : str
        What was read, in words, where it is a file and not a review.
    """
    mark = f" ({INVENTED})" if invented else ""
    told = "not usable" if studies is None else f"{counted(studies, 'study', 'studies')} read"
    first = f"{folder}{mark}: {read or told}; {_numbers(findings)}."
    lines = [fill(first, WIDTH, break_on_hyphens=False, break_long_words=False)]
    if findings:
        rest = findings[FIRST:]
        if rest:
            lines += ["", "Look at these first"]
        lines += [finding_text(finding) for finding in findings[:FIRST]]
        if rest:
            lines += ["", "And these"]
            lines += [finding_text(finding) for finding in rest]
    return "\n".join(lines)


def findings_json(
    folder: str, studies: int | None, findings: Sequence[Finding], *, kind: str = "review"
) -> dict[str, Any]:
    """Return the findings as fields; counts by severity stand first."""
    return {
        "review": folder,
        "kind": kind,
        "studies": studies,
        "faults": _number(findings, Severity.FAULT),
        "doubts_open": sum(finding.is_open for finding in findings),
        "doubts_answered": sum(finding.answer is not None for finding in findings),
        "notes": _number(findings, Severity.NOTE),
        "findings": [finding.to_dict() for finding in findings],
    }


def _numbers(findings: Sequence[Finding]) -> str:
    answered = sum(finding.answer is not None for finding in findings)
    return (
        f"{counted(_number(findings, Severity.FAULT), 'fault', 'faults')}, "
        f"{counted(sum(f.is_open for f in findings), 'open doubt', 'open doubts')} "
        f"({answered} answered), {counted(_number(findings, Severity.NOTE), 'note', 'notes')}"
    )


def _number(findings: Sequence[Finding], severity: Severity) -> int:
    return sum(finding.severity is severity for finding in findings)


def finding_text(finding: Finding) -> str:
    """Return one finding: how grave and where, then what is wrong and what to do."""
    where = f" ({finding.source.key_path})" if finding.source.key_path else ""
    kind = f"{finding.severity}, answered" if finding.answer else str(finding.severity)
    rule = f" [{finding.rule}]"
    cure, *to_paste = finding.cure.split("\n")
    lines = [
        f"{kind.capitalize()}: {finding.source}{where}",
        _indented(f"{_capital(finding.message)}. {_stop(cure)}{'' if to_paste else rule}"),
    ]
    if to_paste:
        # Lines to paste into a file keep their shape.
        lines += [f"    {line}" for line in to_paste] + [f"   {rule}"]
    if finding.answer is not None:
        reply = finding.answer
        lines.append(_indented(f"Answer by {reply.by}, {reply.on}: {_stop(reply.reason)}"))
    return "\n".join(lines)


def _indented(text: str) -> str:
    return fill(
        text, WIDTH, initial_indent="    ", subsequent_indent="    ", break_on_hyphens=False
    )


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]


def _stop(text: str) -> str:
    return text if text.endswith((".", "?", "!", ":")) else f"{text}."
