"""Read what is to be changed in an answer, and refuse in words what cannot be."""

import re
from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING

import click

from evsyn.cli.options import known, refuse

if TYPE_CHECKING:
    from evsyn.cells.cell import CellTable, Question
    from evsyn.extraction.review import Review
    from evsyn.pooling.what_if import CountChange
    from evsyn.reporting.pool_what_if import WhatIf

without_option = click.option(
    "--without", multiple=True, metavar="STUDY", help="Leave out this study; may be repeated."
)
what_if_option = click.option(
    "--what-if",
    "changes",
    multiple=True,
    metavar="STUDY.OUTCOME=6/52",
    help="Give a study's pooled row this count; may be repeated.",
)
disputed_option = click.option(
    "--disputed", is_flag=True, help="Show what each count, if it were another, would change."
)

_WRITTEN = re.compile(r"(?P<study>[^.=]+)\.(?P<outcome>[^=]+)=(?P<events>\d+)/(?P<total>\d+)")


def readable_what_if(
    review: "Review",
    asked: "Sequence[Question]",
    changes: Iterable[str],
    without: Iterable[str],
) -> "WhatIf":
    """Return what is to be changed, or stop with a sentence on what cannot be.

    Parameters
    ----------
    review : Review
        The review.
    asked : sequence of Question
        The questions to be answered.
    changes : iterable of str
        As ``1999-campion.perforation=6/52``.
    without : iterable of str
        Names of studies.
    """
    from evsyn.cells.table import cell_table
    from evsyn.pooling.what_if import tables_without
    from evsyn.reporting.pool_what_if import WhatIf

    names = tuple(dict.fromkeys(without))
    tables = [cell_table(review, question) for question in asked]
    for name in names:
        known(name, [study.study for study in review.studies], "a study")
        if not any(row.study == name for table in tables for row in table.cells):
            why = _why_left_out(tables, name)
            refuse(f"'{name}' is not pooled here{why}. To leave it out changes nothing.")
    left = tables_without(review, tables, names)
    read = [_change(review, written) for written in changes]
    for change in read:
        _refuse_if_not_one_count(review, left, change, names)
    pairs = [(change.study, change.outcome) for change in read]
    for pair in pairs:
        if pairs.count(pair) > 1:
            refuse(f"{'.'.join(pair)} is given two counts. Give it one.")
    return WhatIf(tuple(read), names)


def _change(review: "Review", written: str) -> "CountChange":
    from evsyn.pooling.what_if import CountChange

    parts = _WRITTEN.fullmatch(written)
    if parts is None:
        refuse(
            f"'{written}' cannot be read. Write the study's name, a point, the outcome, and the "
            "count in whole numbers, as 1999-campion.perforation=6/52."
        )
    study = known(parts["study"], [one.study for one in review.studies], "a study")
    outcome = known(parts["outcome"], review.plan.outcomes, "an outcome")
    events, total = int(parts["events"]), int(parts["total"])
    if not total or events > total:
        refuse(
            f"{written}: {events} of {total} cannot be a count. Give no more events than patients, "
            "and at least one patient."
        )
    return CountChange(study, outcome, events, total)


def _refuse_if_not_one_count(
    review: "Review", tables: "Sequence[CellTable]", change: "CountChange", without: Sequence[str]
) -> None:
    from evsyn.pooling.what_if import pooled_row, strata_untold

    place = f"{change.study}.{change.outcome}"
    if not any(table.question.outcome == change.outcome for table in tables):
        refuse(f"{place}: name the outcome {change.outcome} as well, so that it is answered.")
    if change.study in without:
        refuse(f"{place}: the study is left out, so its count cannot be another. Ask for one.")
    forbidden = review.plan.outcomes[change.outcome].do_not_pool
    if forbidden:
        refuse(f"{place}: the plan does not pool this outcome, so no count changes an answer.")
    if pooled_row(tables, change) is None:
        of_outcome = [table for table in tables if table.question.outcome == change.outcome]
        why = _why_left_out(of_outcome, change.study)
        refuse(f"{place}: the study is not pooled for {change.outcome}{why}.")
    untold = strata_untold(tables, change)
    if untold:
        labels = " and ".join(review.plan.strata[name].label.lower() for name in untold)
        refuse(
            f"{place}: the study's rows by {labels} hold other counts than its row over all "
            "studies, and one count does not say how it falls on its parts. Leave out "
            f"{' and '.join(f'--by {name}' for name in untold)}."
        )


def _why_left_out(tables: "Iterable[CellTable]", study: str) -> str:
    lists = (table.left_out for table in tables)
    reasons = [left.reason for one in lists for left in one if left.study == study]
    return f": {reasons[0]}" if reasons else ", because it does not count it"
