"""Pooled answers as text: the sentence first, then tables whose headings are words."""

import math
from collections.abc import Mapping, Sequence
from textwrap import fill

from evsyn.cells.cell import LeftOut, Mark, Question
from evsyn.cells.levels import level_names
from evsyn.effects.intervals import STUDY_INTERVALS
from evsyn.extraction.review import Review
from evsyn.pooling.answer import Row, Show
from evsyn.pooling.reading import profile_interval
from evsyn.pooling.result import Status
from evsyn.pooling.review import group_label
from evsyn.pooling.sensitivity import Variant
from evsyn.pooling.tables import PooledTable
from evsyn.reporting.plain_table import WIDTH, plain_table
from evsyn.terms import Source
from evsyn.wording.heterogeneity import heterogeneity_sentence, profile_sentence
from evsyn.wording.numbers import cell, count, counted, limits
from evsyn.wording.pooled import (
    disagreement_sentence,
    pooled_sentence,
    reading_sentence,
)
from evsyn.wording.rows import STUDY_INTERVAL_NAMES, mark_key, mark_letters, row_name
from evsyn.wording.strata import stating_or_stand_in, untold_sentence
from evsyn.wording.wanted import wanted_and_found

Answers = Mapping[Question, PooledTable]

#: Headings of a row made by :func:`group_row`, after the group itself.
GROUP_HEADINGS = ("Studies", "Count", "Headline, % (95% interval)", "Read this, % (95% interval)")


def paragraph(text: str, indent: str = "") -> str:
    """Fold a paragraph to the width of the page, never inside a word."""
    return fill(
        text,
        WIDTH,
        initial_indent=indent,
        subsequent_indent=indent,
        break_on_hyphens=False,
        break_long_words=False,
    )


def outcome_text(
    review: Review,
    outcome: str,
    answers: Answers,
    strata: Sequence[str],
    tests: Mapping[str, str],
    *,
    detail: bool = False,
) -> str:
    """Return one outcome: its sentence, and one table of all groups asked.

    Parameters
    ----------
    review : Review
        The review.
    outcome : str
        The outcome.
    answers : mapping
        Pooled answers by question.
    strata : sequence of str
        Strata to show.
    tests : mapping
        The sentence on the difference between levels, by stratum.
    detail : bool
        Whether what was left out is listed further down.
    """
    plan = review.plan
    words = plan.outcomes[outcome]
    overall = answers[Question(outcome)]
    lines = [
        f"{words.label} ({words.better} is better)",
        "-" * len(f"{words.label} ({words.better} is better)"),
        paragraph(
            pooled_sentence(overall, event=words.event, group="", refused=words.do_not_pool or "")
        ),
    ]
    more = (
        wanted_and_found(plan, outcome, overall.table.cells) if overall.table.k else "",
        reading_sentence(overall.answer),
        disagreement_sentence(overall.answer),
    )
    lines += [paragraph(text) for text in more if text]
    left = len(overall.table.left_out)
    if left:
        where = "they are listed below" if detail else f"naming {outcome} lists them"
        lines.append(f"{counted(left, 'count is', 'counts are')} left out; {where}, with reasons.")
    lines += ["", _groups_table(review, outcome, answers, strata)]
    for stratum in strata:
        said = stratum_sentences(review, outcome, stratum, answers, tests.get(stratum, ""))
        lines += [""] + [paragraph(text) for text in said]
    return "\n".join(lines)


def stratum_sentences(
    review: Review, outcome: str, stratum: str, answers: Answers, test: str
) -> list[str]:
    """Return what must be said of a stratum: how many state it, what cannot be told, the test."""
    untold = untold_sentence(review, outcome, stratum, answers)
    said = [stating_or_stand_in(review, stratum), untold, "" if untold else test]
    return [text for text in said if text]


def _groups_table(review: Review, outcome: str, answers: Answers, strata: Sequence[str]) -> str:
    rows = [group_row("All studies", answers[Question(outcome)])]
    for stratum in strata:
        declared = review.plan.strata[stratum]
        rows.append((declared.label, "", "", "", ""))
        for level, words in level_names(declared).items():
            rows.append(group_row(f" {words}", answers[Question(outcome, stratum, level)]))
    return plain_table(("Group", *GROUP_HEADINGS), rows, right=(1, 2))


def group_row(label: str, pooled: PooledTable) -> tuple[str, str, str, str, str]:
    """Return one group as a row: label, studies, count, the headline, the line to read."""
    answer = pooled.answer
    if answer.k == 0:
        return (label, "0", "no data", "", "")
    if answer.show is Show.REFUSED:
        return (label, str(answer.k), "", "not pooled", "")
    crude = count(sum(answer.events), sum(answer.total))
    if not answer.show.pooled:
        return (label, str(answer.k), crude, "not pooled", "")
    read = answer.reading.pooled if answer.reading else None
    head = answer.rows[Row.HEADLINE]
    return (
        label,
        str(answer.k),
        crude,
        cell(head.estimate, head.low, head.high),
        cell(read.estimate, read.low, read.high) if read else "counts only",
    )


def detail_text(review: Review, pooled: PooledTable, variants: Sequence[Variant]) -> str:
    """Return one pool in full: rows, spread, studies, what was left out, smaller sets.

    Parameters
    ----------
    review : Review
        The review.
    pooled : PooledTable
        Table and answer.
    variants : sequence of Variant
        The same question asked of fewer studies.
    """
    question = pooled.table.question
    group = group_label(review.plan, question)
    words = review.plan.outcomes[question.outcome]
    title = f"{words.label}, {group or 'all studies'}: in full"
    parts = [title, "-" * len(title)]
    if pooled.answer.show.pooled:
        level = review.plan.pooling.level
        said = (
            profile_sentence(profile_interval(pooled.answer, level=level)),
            heterogeneity_sentence(pooled.answer),
        )
        parts += [_rows_table(pooled), "", *(paragraph(text) for text in said if text), ""]
    if pooled.table.k:
        parts += [_studies_table(review, pooled), ""]
        marks = frozenset[Mark]().union(*(row.marks for row in pooled.table.cells))
        if marks:
            parts += [paragraph(f"Marks: {mark_key(marks)}."), ""]
        parts += [paragraph(_bases(review, pooled)), ""]
    if pooled.table.left_out:
        parts += [left_out_table(pooled.table.left_out), ""]
    if variants:
        parts += [_variants_table(variants), ""]
    return "\n".join(parts).rstrip()


def _rows_table(pooled: PooledTable) -> str:
    answer = pooled.answer
    rows = []
    for name, row in answer.rows.items():
        settled = row.status is Status.POOLED
        # So few studies that no sentence gives a range give none in a table either.
        ranged = answer.show.verdict and not math.isnan(row.prediction_low)
        rows.append(
            (
                row_name(name, row),
                cell(row.estimate, row.low, row.high) if settled else "did not settle",
                limits(row.prediction_low, row.prediction_high) if ranged else "none given",
                f"{row.prediction_df:.0f}" if ranged and not math.isnan(row.prediction_df) else "",
                "read this" if answer.reading and answer.reading.row is name else "",
            )
        )
    headings = ("Method", "% (95% interval)", "A new setting, %", "on t", "")
    return plain_table(headings, rows, right=(3,))


def _studies_table(review: Review, pooled: PooledTable) -> str:
    cells = pooled.table.cells
    choices = review.plan.pooling
    low, high = STUDY_INTERVALS[choices.study_interval](
        [c.events for c in cells], [c.total for c in cells], level=choices.level
    )
    head = pooled.answer.rows.get(Row.HEADLINE)
    rows = []
    for number, row in enumerate(cells):
        rows.append(
            (
                row.label,
                count(row.events, row.total),
                cell(row.events / row.total, low[number], high[number]),
                f"{100 * head.weights[number]:.1f}%" if head else "",
                mark_letters(row.marks),
                short_source(row.sources[0]),
            )
        )
    method = STUDY_INTERVAL_NAMES[choices.study_interval]
    headings = ("Study", "Count", f"% ({method} 95%)", "Weight (DL)", "Marks", "File:line")
    return plain_table(headings, rows, right=(1, 3), whole=(1, 2, 3, 5))


def short_source(source: Source) -> str:
    """Write a source for a table column, as ``1999-campion:35``."""
    return f"{source.file.rpartition('.')[0]}:{source.line}"


def _bases(review: Review, pooled: PooledTable) -> str:
    """Say how many studies have each denominator and each window."""
    plan = review.plan
    bases: dict[str, int] = {}
    windows: dict[str, int] = {}
    for row in pooled.table.cells:
        basis = plan.denominators.get(row.basis, "basis not stated")
        window = plan.windows[row.window].label if row.window in plan.windows else "not stated"
        bases[basis] = bases.get(basis, 0) + 1
        windows[window] = windows.get(window, 0) + 1
    return f"Denominators: {_tallied(bases)}. Windows: {_tallied(windows)}."


def _tallied(numbers: Mapping[str, int]) -> str:
    return "; ".join(f"{words} ({number})" for words, number in numbers.items())


def left_out_table(left_out: Sequence[LeftOut]) -> str:
    """Return the counts that are not pooled, with the reasons."""
    rows = [
        (item.label, count(item.events, item.total), item.reason, short_source(item.source))
        for item in left_out
    ]
    return plain_table(("Left out", "Count", "Why", "File:line"), rows, right=(1,))


def _variants_table(variants: Sequence[Variant]) -> str:
    rows = [(variant.label, *group_row("", variant.pooled)[1:]) for variant in variants]
    return plain_table(("The same with fewer", *GROUP_HEADINGS), rows, right=(1, 2))
