"""``evsyn trace``: a number forward to its places in the results, a result back to its lines."""

from pathlib import Path

import click

from evsyn.cli.names import traceable_names
from evsyn.cli.options import offered, readable_review, refuse, review_argument, say


@click.command(
    "trace",
    short_help="Follow a number from paper to result, or back.",
    epilog="Examples: evsyn trace studies/demo 1999-campion.perforation; "
    "evsyn trace studies/demo perforation/intent=palliation",
)
@review_argument
@click.argument("what", shell_complete=traceable_names)
def command(review: Path, what: str) -> None:
    """Follow WHAT through the folder REVIEW.

    WHAT is a study, study.outcome or study.arm.outcome, to see where a count was read and which
    pools it enters; or an outcome, or outcome/stratum=level, to see every line behind a pool.
    """
    from evsyn.pooling.review import answer_questions, questions
    from evsyn.reporting.pool_text import paragraph
    from evsyn.reporting.trace import (
        back_text,
        counts_named,
        forward_text,
        names_known,
        question_named,
    )
    from evsyn.wording.status import status_line

    read = readable_review(review)
    asked = questions(read.plan)
    question = question_named(read, what)
    if question is not None:
        if question not in asked:
            keys = ", ".join(q.key for q in asked if q.outcome == question.outcome)
            refuse(f"'{what}' is not a question of this review. Known: {keys}.")
        say(back_text(read, answer_questions(read, [question])[question]))
    else:
        found = counts_named(read, what.split("."))
        if not found:
            refuse(
                f"'{what}' names no count and no pool of this review. Write study.outcome, or "
                f"outcome/stratum=level. {offered(what.partition('.')[0], names_known(read))}"
            )
        concerned = {placed.outcome for placed in found}
        answers = answer_questions(read, [q for q in asked if q.outcome in concerned])
        say("\n\n".join(forward_text(read, placed, answers) for placed in found))
    say(f"\n{paragraph(status_line(read))}")
