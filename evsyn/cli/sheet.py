"""``evsyn sheet``: a review's extracts as a workbook, and back."""

from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from evsyn.cli.options import refuse, review_argument, say, steps

if TYPE_CHECKING:
    from evsyn.extraction.review import Review


@click.group(
    "sheet",
    short_help="Take counts in by a spreadsheet.",
    epilog="Example: evsyn sheet make studies/demo -o demo.xlsx",
)
def command() -> None:
    """Write a workbook with the plan's words to pick from, and read it back into extracts."""


@command.command(
    "make",
    short_help="Write a workbook to fill in.",
    epilog="Example: evsyn sheet make studies/demo -o demo.xlsx",
)
@review_argument
@click.option(
    "-o",
    "--output",
    type=click.Path(path_type=Path, dir_okay=False),
    help="The workbook, a name ending in .xlsx. Default: the review's name, in this folder.",
)
@click.option("--empty", is_flag=True, help="Leave out the studies that are there already.")
def make(review: Path, output: Path | None, empty: bool) -> None:
    """Write the extracts of the folder REVIEW, and empty rows for more, as a workbook.

    One row a study, one row a group of patients, one row a count. A workbook that is there
    already is never written over.
    """
    from evsyn.extraction.load import UnreadableError
    from evsyn.extraction.sheet.make import workbook_bytes
    from evsyn.extraction.sheet.read import as_it_stands
    from evsyn.reporting.files import write_whole
    from evsyn.reporting.findings import findings_text
    from evsyn.wording import sheet_read as words
    from evsyn.wording.sheet import sheet_words

    try:
        read = as_it_stands(review, lambda items, stage: _shown(items, words.STAGES[stage]))
    except UnreadableError as error:
        refuse(f"{findings_text(str(review), None, error.findings)}\n{words.FAULTY}")
    path = output or Path(f"{read.plan.review}.xlsx")
    if path.suffix.lower() != ".xlsx":
        path = path.with_name(f"{path.name}.xlsx")
    if path.exists():
        refuse(words.there_already(str(path)))
    studies = () if empty else read.studies
    said = sheet_words(read.plan)
    raw = workbook_bytes(read.plan, studies, said, lambda rows: _shown(rows, words.FILLING))
    write_whole(path, raw)
    say(words.made_sentence(str(path), len(studies)))


@command.command(
    "read",
    short_help="Read a workbook into extracts.",
    epilog="Example: evsyn sheet read studies/demo demo.xlsx --dry",
)
@review_argument
@click.argument("workbook", type=click.Path(path_type=Path))
@click.option("--dry", is_flag=True, help="Say what would be written, and write nothing.")
def read(review: Path, workbook: Path, dry: bool) -> None:
    """Read a WORKBOOK into the extracts of the folder REVIEW.

    The review is checked as it would be, before anything is written. While there is a fault
    nothing is written, and the exit code is 1. What stands in a file is changed or added to in
    its place, and never deleted; its comments stay. At the end it shows each pooled answer that
    the papers move, before and with them.
    """
    from evsyn.cli.new.writing import tell_next
    from evsyn.extraction.load import UnreadableError, read_review
    from evsyn.extraction.sheet.read import read_sheet
    from evsyn.reporting.files import write_all
    from evsyn.reporting.findings import findings_text
    from evsyn.wording import sheet_read as words

    if workbook.is_dir():
        refuse(words.folder_first(str(workbook), str(review)))
    try:
        found = read_sheet(
            workbook, review, lambda items, stage: _shown(items, words.STAGES[stage])
        )
    except UnreadableError as error:
        refuse(f"{findings_text(str(workbook), None, error.findings)}\n{words.FAULTY}")
    number = len(found.all_drafts)
    told = findings_text(str(workbook), number, found.findings, invented=found.invented)
    if found.faults:
        refuse(f"{told}\n{words.FAULTY}")
    say("\n".join(part for part in (told, words.changes_text(found)) if part))
    if not found.texts or dry:
        say(words.LOOKED if found.texts else words.NOTHING)
        return
    before = read_review(review)
    write_all(
        {review / name: text for name, text in found.texts.items()},
        {review / name: raw for name, raw in found.read.items()},
    )
    say(words.written_sentence([str(review / name) for name in found.texts]))
    say(f"\n{_moved(before, read_review(review), [draft.name for draft in found.drafts])}")
    tell_next(["check", review], ["pool", review])


def _moved(before: "Review", after: "Review", studies: Sequence[str]) -> str:
    """Return what the studies that were written move."""
    from evsyn.reporting.added import moved_by, moved_text
    from evsyn.wording.adding import NOT_POOLED

    # A plan without any study has nothing but that to be told of.
    if after.faults or (before.faults and before.studies):
        return f"{NOT_POOLED}\n"
    return f"{moved_text(after, moved_by(before, after, studies))}\n"


def _shown(items: Sequence[Any], label: str) -> Iterator[Any]:
    """Yield items one by one, showing how far it is."""
    with steps(items, label) as shown:
        yield from shown
