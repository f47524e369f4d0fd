"""``evsyn new study``: the extract of one paper."""

from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from evsyn.cli.new.arms import arms_of, facts_of
from evsyn.cli.new.asking import Asker, Given
from evsyn.cli.new.options import ask_option, count_option, invented_option, level_option
from evsyn.cli.new.paper import citation_of, extracted_of, name_from, setting_of
from evsyn.cli.new.writing import (
    file_text,
    refuse_existing,
    said_of,
    tell_next,
    tell_open,
    write_new,
)
from evsyn.cli.options import readable_plan, review_argument

if TYPE_CHECKING:
    from evsyn.extraction.plan import Plan


@click.command(
    "study",
    short_help="Write the extract of one paper.",
    epilog="Example: evsyn new study studies/demo",
)
@review_argument
@click.option("--name", help="Short name of the study, and of its file.")
@click.option("--authors", help="Authors, as printed.")
@click.option("--title", help="Title, as printed.")
@click.option("--journal", help="Journal or other container.")
@click.option("--year", help="Year of publication.")
@click.option("--pages", help="Volume, issue and pages.")
@click.option("--doi", help="DOI, without http.")
@click.option("--pmid", help="PubMed number.")
@click.option("--design", help="Design, as the paper names it.")
@click.option("--country", help="Country.")
@click.option("--centres", help="Hospitals, with semicolons between them.")
@click.option("--recruited", help="As '1995-03 to 1999-12'.")
@click.option("--by", help="Initials of the reader.")
@click.option("--on", help="Day of reading; else today.")
@click.option("--from", "from_", help="full_text, abstract or second_hand.")
@click.option("--checked-by", help="Initials of a second reader.")
@click.option(
    "--fact", "facts", multiple=True, metavar="[GROUP.]NAME=VALUE",
    help="A fact the plan names, of a group or (without one) of the study; may be repeated.",
)  # fmt: skip
@click.option(
    "--arm", "arms", multiple=True, metavar="NAME=PATIENTS",
    help="A group of patients and their number; may be repeated.",
)  # fmt: skip
@click.option("--whole", help="The group that holds all patients; else the only one.")
@click.option(
    "--treatment", "treatments", multiple=True, metavar="[GROUP.]TREATMENT",
    help="Treatment of a group, where the plan lists them; may be repeated.",
)  # fmt: skip
@level_option
@count_option("4/52 attempted 30_days at Table 2 printed 7.7%")
@invented_option
@ask_option
def command(review: Path, asks: bool | None, **given: Any) -> None:
    """Write a new extract into the folder REVIEW, in the words of its plan.

    What was not read is left out. At least one group of patients with one count is needed.
    """
    from evsyn.extraction.load import read_review
    from evsyn.wording import new_questions as say
    from evsyn.wording.new_files import study_comments

    plan = readable_plan(review)
    asker = Asker(asks)
    asker.tell(say.BEFORE)
    record, path = _record(asker, plan, review, given)
    asker.settle()
    text = file_text(path, review, "study", record, study_comments(plan, record))
    findings = read_review(review, {path.name: text}).findings
    asker.settle_faults(said_of(findings, path.name))
    write_new(path, text)
    tell_open(findings, path.name)
    outcome = next(one for arm in record["arms"] for one in arm.get("outcomes", ()))
    tell_next(["check", review], ["trace", review, f"{path.stem}.{outcome}"])


def _record(asker: Asker, plan: "Plan", review: Path, given: Given) -> tuple[Given, Path]:
    from evsyn.extraction.starting import answers
    from evsyn.wording import new_questions as say

    cited = citation_of(asker, given)
    named = asker.one(
        say.STUDY_NAME, "--name", given["name"], answers.name, default=name_from(cited)
    )
    path = review / f"{named or 'NAME'}.yaml"
    if named is not None:
        refuse_existing(path)
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
