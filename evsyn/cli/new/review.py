"""``evsyn new review``: the plan of a review."""

from datetime import date
from pathlib import Path
from textwrap import fill
from typing import TYPE_CHECKING, Any

import click

from evsyn.cli.new.asking import Asker, Given
from evsyn.cli.new.kept import KeptAsker, LeftError
from evsyn.cli.new.options import ask_option, invented_option
from evsyn.cli.new.outcomes import outcomes_of
from evsyn.cli.new.writing import file_text, refuse_existing, tell_next
from evsyn.cli.options import WIDTH

if TYPE_CHECKING:
    from evsyn.terms import Finding

#: Keeps the answers about a plan that is not written yet.
UNFINISHED = ".unfinished-plan.json"


@click.command(
    "review",
    short_help="Write the plan of a review.",
    epilog="Example: evsyn new review stents",
)
@click.argument("folder", type=click.Path(path_type=Path, file_okay=False))
@click.option("--name", help="Short name of the review; else that of the folder.")
@click.option("--title", help="Title, for pages and figures.")
@click.option("--question", help="The question, in one sentence.")
@click.option("--population", help="Who is counted, in a word or two; else patients.")
@click.option("--fixed-on", help="Day the plan was fixed; else today.")
@click.option(
    "--denominator", "denominators", multiple=True, metavar="NAME=WORDS",
    help="Whom a total may count; without any, those that are offered. May be repeated.",
)  # fmt: skip
@click.option(
    "--window", "windows", multiple=True, metavar="NAME=WORDS[; DAYS]",
    help="As '30_days=within 30 days; 30', or 'until' and an event. May be repeated.",
)  # fmt: skip
@click.option("--flow", metavar="NAME, NAME", help="Stages of a case, each within the one before.")
@click.option(
    "--outcome", "outcomes", multiple=True,
    metavar="NAME=LABEL; ONE; SEVERAL; fewer|more; DENOMINATORS; WINDOWS",
    help="As 'leak=Leak; leak; leaks; fewer; attempted, placed; 30_days'. May be repeated.",
)  # fmt: skip
@click.option(
    "--stratum", "strata", multiple=True, metavar="NAME=LABEL: WHAT; LEVEL; LEVEL",
    help="A way of dividing the studies; may be repeated.",
)  # fmt: skip
@click.option("--no-strata", is_flag=True, help="Do not ask what divides the studies.")
@invented_option
@ask_option
def command(folder: Path, asks: bool | None, **given: Any) -> None:
    """Write the plan of a new review, and its schemas, into FOLDER, which is made if need be.

    A plan names the outcomes, and for each whom its total may count and over what time it may be
    looked for. Denominators, windows and strata are offered as examples and may be changed freely.
    Type 'back' to go to the question before, and 'later' to stop: the answers are kept.
    """
    from evsyn.extraction.load import PLAN_FILE
    from evsyn.extraction.schema.folder import FOLDER
    from evsyn.wording.adding import BEFORE_PLAN
    from evsyn.wording.new_files import review_comments

    path = folder / PLAN_FILE
    refuse_existing(path)
    refuse_existing(folder / FOLDER)
    asker = KeptAsker(asks, folder / UNFINISHED)
    if asker.asks:
        click.echo("\n".join(BEFORE_PLAN))

    def made() -> str:
        record = _record(asker, folder, given)
        asker.settle()
        text = file_text(path, folder, "review", record, review_comments(record))
        asker.settle_faults(_findings(path.name, text))
        return text

    try:
        text = asker.walked(made)
    except (LeftError, click.Abort) as left:
        asker.tell_kept(["new", "review", str(folder)])
        raise SystemExit(0 if isinstance(left, LeftError) else 1) from None
    _write(folder, text)
    asker.done()
    tell_next(["add", folder], ["check", folder])


def _findings(name: str, text: str) -> "tuple[Finding, ...]":
    """Return what is found about a plan before it is written."""
    from tempfile import TemporaryDirectory

    from evsyn.extraction.load import UnreadableError, read_review

    with TemporaryDirectory() as folder:
        (Path(folder) / name).write_text(text, encoding="utf-8")
        try:
            return read_review(Path(folder)).findings
        except UnreadableError as error:
            return tuple(error.findings)


def _write(folder: Path, text: str) -> None:
    """Write plan and schemas together."""
    from evsyn.extraction.load import PLAN_FILE, read_review
    from evsyn.extraction.schema.folder import FOLDER, schema_texts
    from evsyn.reporting.files import written_together

    with written_together(folder) as draft:
        (draft / PLAN_FILE).write_text(text, encoding="utf-8")
        (draft / FOLDER).mkdir()
        for name, schema in schema_texts(read_review(draft).plan).items():
            (draft / FOLDER / name).write_text(schema, encoding="utf-8", newline="\n")
    click.echo(f"Written: {folder / PLAN_FILE}")
    click.echo(f"Written: {folder / FOLDER}")


def _record(asker: Asker, folder: Path, given: Given) -> Given:
    from evsyn.extraction.starting import answers, plan_parts
    from evsyn.wording import new_questions as say

    offered = plan_parts.offered()
    today, named = date.today().isoformat(), answers.short(folder.resolve().name)
    record: Given = {
        "format": 1,
        "review": asker.one(say.REVIEW_NAME, "--name", given["name"], answers.name, default=named),
        "title": asker.one(say.REVIEW_TITLE, "--title", given["title"], answers.text),
        "question": asker.one(say.QUESTION, "--question", given["question"], answers.text),
        "invented": asker.yes(say.INVENTED, given["invented"] or None, default=False) or None,
        "fixed_on": asker.one(
            say.FIXED_ON, "--fixed-on", given["fixed_on"], answers.day, default=today
        ),
        "search": "none",
        "population": asker.one(
            say.POPULATION, "--population", given["population"], answers.text, default="patients"
        ),
    }
    record["denominators"] = asker.several(
        say.DENOMINATORS, say.DENOMINATOR, "--denominator", given["denominators"],
        _named_words, offered["denominators"],
    )  # fmt: skip
    record["windows"] = asker.several(
        say.WINDOWS, say.WINDOW_NEW, "--window", given["windows"],
        plan_parts.window, offered["windows"],
    )  # fmt: skip
    record["flow"] = _flow(asker, record["denominators"], offered, given["flow"])
    record["outcomes"] = outcomes_of(asker, record, given["outcomes"])
    record["strata"] = {} if given["no_strata"] else asker.several(
        say.STRATA, say.STRATUM, "--stratum", given["strata"],
        plan_parts.stratum, offered["strata"], needed=False,
    )  # fmt: skip
    return {key: value for key, value in record.items() if value not in (None, {})}


def _flow(asker: Asker, words: Given, offered: Given, given: str | None) -> Any:
    from evsyn.wording import new_questions as say

    if given is None and words == offered["denominators"]:
        return offered["flow"]
    if given is None and len(words) < 2:
        return None
    asker.tell(["", fill(say.STAGES, WIDTH)])
    return asker.choice(say.FLOW_STAGES, "--flow", given, words, needed=False, several=True)


def _named_words(written: str) -> tuple[str, str]:
    from evsyn.extraction.starting import answers

    key, words = answers.pair(written)
    return answers.name(key), words
