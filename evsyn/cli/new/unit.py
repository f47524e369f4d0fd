"""``evsyn new unit``: a unit's own figures for a period."""

from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from evsyn.cli.new.asking import Asker, Given
from evsyn.cli.new.cases import flow_of, groups_of
from evsyn.cli.new.kept import KeptAsker
from evsyn.cli.new.options import ask_option, count_option, invented_option, level_option
from evsyn.cli.new.writing import file_text, refuse_existing, tell_next, tell_open, write_new
from evsyn.cli.options import readable_plan, review_argument

if TYPE_CHECKING:
    from evsyn.extraction.plan import Plan
    from evsyn.terms import Finding


@click.command(
    "unit",
    short_help="Write a unit's own figures.",
    epilog="Example: evsyn new unit studies/demo",
)
@review_argument
@click.option("--label", help="The unit's name, as it is to stand in figures.")
@click.option("--name", help="Short name of the unit.")
@click.option("--period", help="Months covered, as '2022-04 to 2025-03'.")
@click.option("--frozen-on", help="Day the figures were frozen; else today.")
@click.option("--complete/--not-complete", default=None, help="Whether every case is counted.")
@click.option(
    "--left-out", multiple=True, metavar="NUMBER=WHY", help="Cases left out; may be repeated."
)
@click.option("--follow-up", help="How long the cases were followed.")
@click.option("--counted-by", help="patient, procedure or device; else patient.")
@click.option("--expected", metavar="NUMBER=SOURCE", help="Cases there should be, and who says so.")
@click.option(
    "--flow", "flow", multiple=True, metavar="STAGE=NUMBER",
    help="Cases at a stage of the plan's flow; may be repeated.",
)  # fmt: skip
@click.option(
    "--group", "groups", multiple=True, metavar="NAME=PATIENTS",
    help="Cases with the same labels, under a name to speak of them; may be repeated.",
)  # fmt: skip
@level_option
@count_option("1/12 attempted 30_days unknown 1")
@click.option(
    "-o", "--output", type=click.Path(path_type=Path, dir_okay=False),
    help="The file; else unit-NAME.yaml in the folder of the review.",
)  # fmt: skip
@invented_option
@ask_option
def command(review: Path, asks: bool | None, output: Path | None, **given: Any) -> None:
    """Write a new unit file in the words of the folder REVIEW.

    It holds counts alone. No name, number or date of a patient belongs in it.
    """
    from evsyn.wording import new_questions as say
    from evsyn.wording.new_files import unit_comments

    plan = readable_plan(review)
    asker = KeptAsker(asks)
    asker.tell(say.BEFORE)
    if output is not None:
        refuse_existing(output)

    def made() -> "tuple[Path, str, tuple[Finding, ...]]":
        record = _record(asker, plan, given)
        path = output or review / f"unit-{record['unit'] or 'NAME'}.yaml"
        refuse_existing(path)
        asker.settle()
        text = file_text(path, review, "unit", record, unit_comments(plan, record))
        findings = _found(path.name, text, plan)
        asker.settle_faults(findings)
        return path, text, findings

    path, text, findings = asker.walked(made)
    write_new(path, text)
    tell_open(findings, path.name)
    tell_next(
        ["check", path, "--against", review],
        ["audit", path, "--against", review, "--for", "inside"],
    )


def _found(name: str, text: str, plan: "Plan") -> "tuple[Finding, ...]":
    """Return what is found about a unit file before it is written."""
    from tempfile import TemporaryDirectory

    from evsyn.extraction.load import UnreadableError, read_unit

    with TemporaryDirectory() as folder:
        draft = Path(folder) / name
        draft.write_text(text, encoding="utf-8")
        try:
            return read_unit(draft, plan).findings
        except UnreadableError as error:
            return error.findings


def _record(asker: Asker, plan: "Plan", given: Given) -> Given:
    from evsyn.extraction.starting import answers
    from evsyn.wording import new_questions as say

    label = asker.one(say.UNIT_LABEL, "--label", given["label"], answers.text)
    offered = answers.short(label or "")
    named = asker.one(say.UNIT_NAME, "--name", given["name"], answers.name, default=offered)
    today = date.today().isoformat()
    record: Given = {
        "format": 1,
        "unit": named,
        "label": label,
        "invented": given["invented"] or None,
        "period": asker.one(say.PERIOD, "--period", given["period"], answers.span),
        "frozen_on": asker.one(
            say.FROZEN, "--frozen-on", given["frozen_on"], answers.day, default=today
        ),
        **_completeness(asker, given),
        "follow_up": asker.one(say.FOLLOW_UP, "--follow-up", given["follow_up"], answers.text),
        "counted_by": asker.choice(
            say.COUNTED_BY,
            "--counted-by",
            given["counted_by"],
            say.COUNTED_BY_WORDS,
            default="patient",
        ),
    }
    expected = asker.one(say.EXPECTED, "--expected", given["expected"], answers.number_and_words(1))
    if expected is not None:
        record["expected_cases"] = {"count": expected[0], "according_to": expected[1]}
    record["flow"] = flow_of(asker, plan, given["flow"]) or None
    record["groups"] = groups_of(asker, plan, given, by_patient=record["counted_by"] == "patient")
    return record


def _completeness(asker: Asker, given: Given) -> Given:
    from evsyn.extraction.starting import answers
    from evsyn.wording import new_questions as say

    read = answers.number_and_words(1)
    left = asker.each("--left-out", given["left_out"], read)
    told = given["complete"]
    if told is None and left:
        told = False
    if told is None and not asker.asks:
        asker.missing("--complete or --not-complete", say.COMPLETE)
    complete = asker.yes(say.COMPLETE, told, default=True)
    if not complete and not left:
        one = asker.one(say.LEFT_OUT, "--left-out", None, read)
        left = [] if one is None else [one]
    out = [{"count": number, "why": why} for number, why in left]
    return {"complete": complete, "left_out": out or None}
