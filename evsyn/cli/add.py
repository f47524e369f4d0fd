"""``evsyn add``: one new paper, from its reference to its place in the pool."""

import shlex
from pathlib import Path
from textwrap import fill
from typing import TYPE_CHECKING, Any

import click

from evsyn.cli.new.asking import Asker, Given
from evsyn.cli.new.kept import UNFINISHED, KeptAsker, LeftError
from evsyn.cli.new.options import study_options
from evsyn.cli.new.reference import citation_from
from evsyn.cli.new.remembered import put_away
from evsyn.cli.new.study import study_record
from evsyn.cli.new.writing import (
    file_text,
    said_of,
    tell_next,
    tell_open,
    write_new,
)
from evsyn.cli.options import WIDTH, refuse, review_argument

if TYPE_CHECKING:
    from evsyn.extraction.review import Review
    from evsyn.terms import Finding


@click.command(
    "add",
    short_help="Bring one paper in, and see what it moves.",
    epilog="Example: evsyn add studies/demo --reference paper.ris",
)
@review_argument
@click.option(
    "--reference",
    "reference",
    type=click.Path(path_type=Path),
    help="File with the record of the paper: RIS, PubMed or BibTeX.",
)
@click.option("--anew", is_flag=True, help="Put the answers about an unfinished paper away.")
@study_options
def command(
    review: Path, reference: Path | None, anew: bool, asks: bool | None, **given: Any
) -> None:
    """Bring one new paper into the folder REVIEW, and show each pooled answer before and with it.

    It takes the citation from a record, asks for the counts in the words of the plan, checks each
    as it is typed, and writes the extract at the end. Type 'back' to go to the question before,
    and 'later' to stop: the answers are kept, and the same command takes them up again. What an
    option gives is not asked. To write a file and fill it in with an editor: evsyn new study.
    """
    from evsyn.wording import adding as say

    before = _review(review)
    place = review / UNFINISHED
    if anew and (away := put_away(place)):
        click.echo(_folded(say.put_away(str(away))))
    asker = KeptAsker(asks, place)
    if asker.asks:
        click.echo("\n".join(say.BEFORE))
    try:
        path, after = asker.walked(lambda: _walk(asker, before, reference, given))
    except (LeftError, click.Abort) as left:
        asker.tell_kept(["add", str(review)])
        raise SystemExit(0 if isinstance(left, LeftError) else 1) from None
    asker.done()
    _tell_moved(before, after, path)
    if not asker.asks and place.exists():
        click.echo(_folded(say.one_waits(str(place))))


def _walk(
    asker: KeptAsker, before: "Review", reference: Path | None, given: Given
) -> "tuple[Path, Review]":
    """Ask, check and write; return the new file, and the review with it."""
    from evsyn.extraction.load import read_review
    from evsyn.wording import adding as say
    from evsyn.wording.new_files import study_comments

    plan, folder = before.plan, before.folder

    def cite(asked: Asker, options: Given) -> Given:
        assert isinstance(asked, KeptAsker)
        return citation_from(asked, before, reference, options)

    record, path = study_record(asker, plan, folder, given, cite)
    asker.settle()

    def text_and_findings() -> "tuple[str, list[Finding]]":
        text = file_text(path, folder, "study", record, study_comments(plan, record))
        return text, said_of(read_review(folder, {path.name: text}).findings, path.name)

    text, found = text_and_findings()
    asker.settle_faults(found)
    if asker.asks:
        asker.tell(["", say.DOUBTS if found else say.NO_DOUBT])
        record["answers"] = _answered(asker, found, record["extracted"])
        if record["answers"]:
            text, found = text_and_findings()
        else:
            del record["answers"]
    else:
        tell_open(found, path.name)
    if not asker.yes(say.WRITE, None, default=True):
        asker.refused()
    write_new(path, text)
    return path, read_review(folder)


def _answered(asker: KeptAsker, found: "list[Finding]", read: Given) -> list[Given]:
    """Say what is doubtful, and return a person's answers, as a file holds them."""
    from evsyn.extraction.starting.answers import text
    from evsyn.wording import adding as say
    from evsyn.wording.new_questions import doubtful

    given: list[Given] = []
    for one in found:
        asker.tell(["", _folded(doubtful(one, one.source.key_path))])
        if not one.is_open:
            continue
        asker.about = f"{one.rule} {one.source.key_path}"
        reason = asker.one(say.WHY_STANDS, "", None, text, needed=False)
        if reason is not None:
            at = {"at": one.source.key_path} if one.source.key_path else {}
            given.append(
                {"rule": one.rule, **at, "reason": reason, "by": read["by"], "on": read["on"]}
            )
    asker.about = ""
    return given


def _tell_moved(before: "Review", after: "Review", path: Path) -> None:
    from evsyn.reporting.added import moved_by, moved_text
    from evsyn.wording import adding as say

    click.echo()
    if after.faults:
        click.echo(_folded(say.NOT_POOLED))
    else:
        click.echo(moved_text(after, moved_by(before, after, [path.stem])))
    click.echo()
    tell_next(["check", after.folder], ["pool", after.folder])


def _folded(text: str) -> str:
    return fill(text, WIDTH, break_on_hyphens=False, break_long_words=False)


def _review(folder: Path) -> "Review":
    """Return a review without faults; one that holds no study yet will do."""
    from evsyn.extraction.load import PLAN_FILE, UnreadableError, read_review
    from evsyn.reporting.findings import findings_text
    from evsyn.wording.adding import NO_REVIEW

    if not (folder / PLAN_FILE).is_file():
        refuse(
            NO_REVIEW.format(
                folder=folder, command=shlex.join(["evsyn", "new", "review", str(folder)])
            )
        )
    try:
        review = read_review(folder)
    except UnreadableError as error:
        refuse(findings_text(str(folder), None, error.findings))
    if review.faults and review.studies:
        refuse(findings_text(str(folder), len(review.studies), review.faults))
    return review
