"""Arguments and refusals that several verbs share."""

import shlex
import sys
from collections.abc import Container, Iterable, Iterator, Sequence
from contextlib import contextmanager
from difflib import get_close_matches
from pathlib import Path
from textwrap import fill
from typing import TYPE_CHECKING, NoReturn

import click

if TYPE_CHECKING:
    from evsyn.extraction.load import CheckedUnit
    from evsyn.extraction.plan import Plan
    from evsyn.extraction.review import Review

WIDTH = 80

review_argument = click.argument("review", type=click.Path(path_type=Path))
against_option = click.option(
    "--against",
    "review",
    required=True,
    type=click.Path(path_type=Path),
    help="Folder of the review.",
)
audience_option = click.option(
    "--for",
    "audience",
    required=True,
    type=click.Choice(["inside", "outside"]),
    help="Who will see it. Outside, small counts are hidden and others rounded. No default.",
)
json_option = click.option("--json", "as_json", is_flag=True, help="Print fields for programs.")


@contextmanager
def steps(items: Sequence[str], label: str) -> Iterator[Iterable[str]]:
    """Yield the items, with a progress bar on the error stream if someone watches it."""
    if not sys.stderr.isatty():
        yield items
        return
    with click.progressbar(items, label=label, file=sys.stderr) as bar:
        yield bar


def say(text: str) -> None:
    """Print in the console's own alphabet; what it lacks is printed in its nearest plain form."""
    sys.stdout.write(f"{text}\n")


def refuse(message: str) -> NoReturn:
    """Stop with a sentence on the error stream and exit code 1."""
    lines = (_folded(line) for line in message.split("\n"))
    click.echo("\n".join(lines), err=True)
    raise SystemExit(1)


def _folded(line: str) -> str:
    if len(line) <= WIDTH:
        return line
    return fill(line, WIDTH, break_on_hyphens=False, break_long_words=False)


def readable_review(folder: Path) -> "Review":
    """Return a review without faults, or print every fault and stop."""
    from evsyn.extraction.load import UnreadableError, read_review
    from evsyn.reporting.findings import findings_text

    try:
        review = read_review(folder)
    except UnreadableError as error:
        refuse(findings_text(str(folder), None, error.findings))
    if review.faults:
        refuse(
            findings_text(str(folder), len(review.studies), review.faults)
            + "\nNothing is pooled while a fault stands."
        )
    if not review.studies:
        refuse(f"{folder} holds a plan and no study. Bring in the first: evsyn add.")
    return review


def readable_plan(folder: Path) -> "Plan":
    """Return the plan of a review, whatever its studies hold, or print its faults and stop."""
    from evsyn.extraction.load import PLAN_FILE, read_record
    from evsyn.extraction.plan import Plan
    from evsyn.reporting.findings import findings_text

    plan, findings = read_record(folder / PLAN_FILE, Plan)
    if plan is None:
        refuse(findings_text(str(folder), None, findings))
    return plan


def readable_periods(
    path: Path, before: Path | None, review: "Review"
) -> "tuple[CheckedUnit, CheckedUnit | None]":
    """Return a unit's figures and those of an earlier period, which may not share a month."""
    checked = readable_unit(path, review)
    if before is None:
        return checked, None
    earlier = readable_unit(before, review)
    unit, other = checked.unit, earlier.unit
    if unit.unit != other.unit:
        refuse(
            f"{before} is of the unit '{other.unit}', and {path} of '{unit.unit}'. A period is set "
            "against an earlier one of the same unit."
        )
    if other.period.from_ > unit.period.to:
        refuse(f"{before} is the later period. Give it first, and {path} with --before.")
    if other.period.to >= unit.period.from_[: len(other.period.to)]:
        refuse(
            f"{before} runs to {other.period.to}, and {path} begins in {unit.period.from_}: a case "
            "would stand in both. Give periods that do not meet, the earlier one with --before."
        )
    return checked, earlier


def level_of(written: str, review: "Review") -> tuple[str, str]:
    """Return stratum and level of ``intent=palliation``, or stop with the nearest known words."""
    from evsyn.cells.levels import labelled_strata, level_names

    stratum, _, level = written.partition("=")
    strata = labelled_strata(review.plan)
    known(stratum, strata, "a stratum with levels")
    return stratum, known(level, level_names(strata[stratum]), f"a level of '{stratum}'")


def typed(*, without: Iterable[Path] = ()) -> str:
    """Return the command as it was typed, without a place of this machine.

    Parameters
    ----------
    without : iterable of pathlib.Path
        Files that what is made must not name; each is written as ``UNIT``.
    """
    hidden = {path.resolve() for path in without}
    words: list[str] = click.get_current_context().meta.get("evsyn.typed", [])
    return shlex.join(["evsyn", *(_nameless(word, hidden) for word in words)])


def _nameless(word: str, hidden: Container[Path]) -> str:
    """Keep of a path on this machine its last name alone, and of a hidden one nothing."""
    # A path may stand alone or behind its option, as in --before=FILE.
    option, equals, value = word.partition("=") if word.startswith("-") else ("", "", word)
    path = Path(value)
    if path.resolve() in hidden:
        value = "UNIT"
    elif path.is_absolute() and path.name:
        value = path.name
    return f"{option}{equals}{value}"


def known(word: str, words: Iterable[str], what: str) -> str:
    """Return the word, or stop with the nearest known one."""
    listed = list(words)
    if word in listed:
        return word
    refuse(f"'{word}' is not {what} of this review. {offered(word, listed)}")


def offered(word: str, listed: Sequence[str]) -> str:
    """Offer the nearest of some words, or list them."""
    lowered = {one.lower(): one for one in listed}
    close = get_close_matches(word.lower(), list(lowered), n=1, cutoff=0.5)
    if close:
        return f"Did you mean '{lowered[close[0]]}'?"
    return f"Known: {', '.join(listed) or 'none'}."


def readable_unit(path: Path, review: "Review") -> "CheckedUnit":
    """Return a unit's figures without faults, or print every fault and stop."""
    from evsyn.extraction.load import UnreadableError, read_unit
    from evsyn.reporting.findings import findings_text

    try:
        checked = read_unit(path, review.plan)
    except UnreadableError as error:
        refuse(findings_text(str(path), None, error.findings))
    names = {study.study for study in review.studies}
    for name in checked.unit.own_studies:
        if name not in names:
            place = checked.unit.source("own_studies")
            refuse(
                f"{place}: own_studies names '{name}', which is not a study of this review. "
                "Correct the name, or delete it if the unit's own series is not in the review."
            )
    return checked
