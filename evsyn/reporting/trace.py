"""Follow a number: from a count to the pools it enters, and from a pool back to its lines."""

from collections.abc import Mapping, Sequence

from evsyn.cells.cell import Question
from evsyn.extraction.review import Review
from evsyn.extraction.rules.rule import Placed, every_count
from evsyn.extraction.study import Count
from evsyn.pooling.review import group_label
from evsyn.pooling.tables import PooledTable
from evsyn.reporting.plain_table import plain_table
from evsyn.reporting.pool_text import paragraph
from evsyn.terms import OVERALL, Source
from evsyn.wording.citation import citation_text
from evsyn.wording.numbers import count
from evsyn.wording.pooled import pooled_sentence
from evsyn.wording.rows import mark_key

Answers = Mapping[Question, PooledTable]


def counts_named(review: Review, words: Sequence[str]) -> list[Placed]:
    """Return the counts that ``study``, ``study.outcome`` or ``study.arm.outcome`` names.

    A study may be named as its file is, or as tables and figures label it.
    """
    study, rest = words[0].casefold(), words[1:]
    return [
        placed
        for placed in every_count(review)
        if study in (placed.study.study.casefold(), placed.study.name.casefold())
        and all(word in (placed.arm.arm, placed.outcome) for word in rest)
    ]


def names_known(review: Review) -> list[str]:
    """Return every word a trace may begin with: outcomes, studies, and their labels."""
    studies = [name for study in review.studies for name in (study.study, study.name)]
    return list(dict.fromkeys([*review.plan.outcomes, *studies]))


def forward_text(review: Review, placed: Placed, answers: Answers) -> str:
    """Return where one count stands in the paper and in the results.

    Parameters
    ----------
    review : Review
        The review.
    placed : Placed
        The count.
    answers : mapping
        Every pooled answer that could hold it.
    """
    number, source = placed.count, placed.source
    lines = [
        f"{placed.study.study}, arm {placed.arm.arm}, {placed.outcome}: "
        f"{count(number.events, number.total)}",
        paragraph(f"Read in: {citation_text(placed.study.citation)}", "  "),
        paragraph(f"Place in the paper: {number.at or 'not given'}", "  "),
        f"  Written in: {source}",
    ]
    if number.printed or number.derived:
        told = [f"printed {number.printed}" if number.printed else ""]
        told.append(f"worked out as {number.derived}" if number.derived else "")
        lines.append(paragraph("; ".join(part for part in told if part).capitalize() + ".", "  "))
    for finding in review.findings:
        if _same_place(finding.source, source):
            lines.append(paragraph(f"{finding.severity}: {finding.message}".capitalize(), "  "))
    entered = [q for q, pooled in answers.items() if _holds(pooled, source)]
    held = ", ".join(question.key for question in entered) or "nothing"
    lines.append(paragraph(f"Pooled in: {held}", "  "))
    for question, pooled in answers.items():
        for item in pooled.table.left_out:
            if _same_place(item.source, source):
                lines.append(paragraph(f"Left out of {question.key}: {item.reason}.", "  "))
    return "\n".join(lines)


def back_text(review: Review, pooled: PooledTable) -> str:
    """Return every line behind a pooled answer, with its place in the paper."""
    question = pooled.table.question
    words = review.plan.outcomes[question.outcome]
    sentence = pooled_sentence(
        pooled,
        event=words.event,
        group=group_label(review.plan, question),
        refused=words.do_not_pool or "",
    )
    own = {_place(placed.source): placed.count for placed in every_count(review)}
    rows = [
        (cell.label, _count(own[_place(source)]), str(source), source.place or "not given")
        for cell in pooled.table.cells
        for source in cell.sources
    ]
    parts = [paragraph(sentence), ""]
    if rows:
        headings = ("Study", "Count", "Line", "Place in the paper")
        parts.append(plain_table(headings, rows, right=(1,)))
    for cell in pooled.table.cells:
        if cell.marks:
            parts.append(paragraph(f"{cell.label}: {mark_key(cell.marks)}."))
    for item in pooled.table.left_out:
        parts.append(
            paragraph(
                f"Left out: {item.label} {count(item.events, item.total)}, {item.source}: "
                f"{item.reason}."
            )
        )
    return "\n".join(parts)


def question_named(review: Review, text: str) -> Question | None:
    """Return the question that a key such as ``perforation/intent=palliation`` names."""
    outcome, _, rest = text.partition("/")
    if outcome not in review.plan.outcomes:
        return None
    if not rest or rest == OVERALL:
        return Question(outcome)
    stratum, _, level = rest.partition("=")
    return Question(outcome, stratum, level)


def _holds(pooled: PooledTable, source: Source) -> bool:
    return any(_same_place(one, source) for cell in pooled.table.cells for one in cell.sources)


def _same_place(one: Source, other: Source) -> bool:
    return _place(one) == _place(other)


def _place(source: Source) -> tuple[str, str]:
    return source.file, source.key_path


def _count(own: Count) -> str:
    return count(own.events, own.total)
