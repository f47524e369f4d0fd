"""Match the answers written in extracts to the doubts they answer."""

from collections.abc import Iterable

from evsyn.extraction.review import Review
from evsyn.extraction.study import AnsweredDoubt, Study
from evsyn.terms import Answer, Finding, Severity, Source


def with_answers(review: Review, findings: Iterable[Finding]) -> list[Finding]:
    """Attach each answer to the doubts it names; an answer that meets none becomes a note.

    Parameters
    ----------
    review : Review
        The review whose extracts hold the answers.
    findings : iterable of Finding
        What the checks found.
    """
    by_file = {study.source().file: study for study in review.studies}
    used: set[Source] = set()
    kept: list[Finding] = []
    for finding in findings:
        study = by_file.get(finding.source.file)
        entry = _answer_for(finding, study) if study is not None else None
        if entry is None:
            kept.append(finding)
            continue
        used.add(entry.source())
        kept.append(finding.answered(Answer(entry.reason, entry.by, entry.on)))
    for study in review.studies:
        for entry in study.answers:
            place = entry.source()
            if place not in used:
                kept.append(
                    Finding(
                        "answer-unmatched",
                        Severity.NOTE,
                        place,
                        f"the answer to '{entry.rule}' meets no doubt",
                        "Delete it, or correct its rule or its 'at'.",
                    )
                )
    return kept


def _answer_for(finding: Finding, study: Study) -> AnsweredDoubt | None:
    """Return the answer to a doubt; one that names its place goes before one for all."""
    if finding.severity is not Severity.DOUBT:
        return None
    for entry in sorted(study.answers, key=lambda answer: answer.at is None):
        path = finding.source.key_path
        named = entry.at is None or path == entry.at or path.startswith(f"{entry.at}.")
        if entry.rule == finding.rule and named:
            return entry
    return None
