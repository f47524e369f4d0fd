"""``evsyn new study``: the extract of one paper."""

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from evsyn.cli.new.arms import arms_of, facts_of
from evsyn.cli.new.asking import Asker, Given
from evsyn.cli.new.kept import KeptAsker
from evsyn.cli.new.options import study_options
from evsyn.cli.new.paper import citation_of, extracted_of, name_from, setting_of
from evsyn.cli.new.writing import (
    file_text,
    free_name,
    said_of,
    tell_next,
    tell_open,
    write_new,
)
from evsyn.cli.options import readable_plan, review_argument

if TYPE_CHECKING:
    from evsyn.extraction.plan import Plan
    from evsyn.terms import Finding


@click.command(
    "study",
    short_help="Write the extract of one paper.",
    epilog="Example: evsyn new study studies/demo",
)
@review_argument
@study_options
def command(review: Path, asks: bool | None, **given: Any) -> None:
    """Write a new extract into the folder REVIEW, in the words of its plan, as a file to fill in.

    What was not read is left out, to be added in an editor. At least one group of patients with one
    count is needed. To bring in one paper from its reference, with every count checked as it is
    typed, answers that are kept and what it moves at the end: evsyn add.
    """
    from evsyn.extraction.load import read_review
    from evsyn.wording import new_questions as say
    from evsyn.wording.new_files import study_comments

    plan = readable_plan(review)
    asker = KeptAsker(asks)
    asker.tell(say.BEFORE)

    def made() -> "tuple[Given, Path, str, tuple[Finding, ...]]":
        record, path = study_record(asker, plan, review, given, citation_of)
        asker.settle()
        text = file_text(path, review, "study", record, study_comments(plan, record))
        findings = read_review(review, {path.name: text}).findings
        asker.settle_faults(said_of(findings, path.name))
        return record, path, text, findings

    record, path, text, findings = asker.walked(made)
    write_new(path, text)
    tell_open(findings, path.name)
    outcome = next(one for arm in record["arms"] for one in arm.get("outcomes", ()))
    tell_next(["check", review], ["trace", review, f"{path.stem}.{outcome}"])


def study_record(
    asker: Asker,
    plan: "Plan",
    review: Path,
    given: Given,
    cite: Callable[[Asker, Given], Given],
) -> tuple[Given, Path]:
    """Return what the file of a new study is to hold, and its path.

    Parameters
    ----------
    asker : Asker
        Where answers come from.
    plan : Plan
        The plan whose words are used.
    review : pathlib.Path
        Folder of the review.
    given : dict
        What the options hold.
    cite : callable
        Gives the citation.
    """
    from evsyn.extraction.starting import answers
    from evsyn.wording import new_questions as say

    cited = cite(asker, given)
    named = asker.one(
        say.STUDY_NAME, "--name", given["name"], free_name(review), default=name_from(cited)
    )
    path = review / f"{named or 'NAME'}.yaml"
    record: Given = {
        "format": 1,
        "study": named,
        "invented": given["invented"] or plan.invented or None,
        "citation": cited,
        "design": asker.optional(say.DESIGN, "--design", given["design"], answers.text),
        "setting": setting_of(asker, given),
        "extracted": extracted_of(asker, given),
        "characteristics": facts_of(asker, plan, "", given["facts"]),
        "arms": arms_of(asker, plan, given),
    }
    kept = {key: value for key, value in record.items() if value not in (None, {})}
    # An empty citation is told as a doubt.
    return {key: kept.get(key, {}) for key in record if key in kept or key == "citation"}, path
