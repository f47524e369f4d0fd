"""``evsyn calibrate``: can the interval of a review laid out like this be trusted?"""

from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

import click

from evsyn.cli.names import outcome_names, stratum_names
from evsyn.cli.options import (
    json_option,
    known,
    level_of,
    offered,
    readable_review,
    refuse,
    say,
    steps,
)

if TYPE_CHECKING:
    from evsyn.calibration.layout import Layout
    from evsyn.calibration.result import Calibration
    from evsyn.reporting.calibrate_page import Origin


class Method(NamedTuple):
    """Estimator of the headline, and level of the intervals."""

    between: str = "dersimonian_laird"
    level: float = 0.95


@click.command(
    "calibrate",
    short_help="Simulate reviews like this one: do the intervals hold?",
    epilog="Example: evsyn calibrate studies/demo perforation --by intent",
)
@click.argument("review", type=click.Path(path_type=Path), required=False)
@click.argument("outcome", required=False, shell_complete=outcome_names)
@click.option("--by", shell_complete=stratum_names, help="Compare the levels of this stratum too.")
@click.option("--level", help="Only this level of a stratum, as intent=palliation.")
@click.option(
    "--sizes",
    multiple=True,
    help="Without a review: patients of each study, as 20,45,30; for levels, repeat as "
    "old=20,20,20.",
)
@click.option("--studies", type=int, help="Without a review: so many studies, all of --size.")
@click.option("--size", type=int, help="Patients of each of --studies.")
@click.option("--rate", "rate_text", help="True rate, as 5% or 0.05; the review's by default.")
@click.option("--tau", type=float, help="True spread between settings; the review's by default.")
@click.option("--cases", type=int, help="Cases of a new unit; the median study by default.")
@click.option("--replications", type=int, help="Reviews to draw; 10,000 by default.")
@click.option("--exact-replications", type=int, help="By the exact model; 1,000 by default.")
@click.option("--seed", type=int, help="Another seed draws other reviews.")
@click.option(
    "--workers", type=int, default=-1, help="Processes, all cores by default; changes no number."
)
@json_option
def command(
    review: Path | None,
    outcome: str | None,
    by: str | None,
    level: str | None,
    sizes: tuple[str, ...],
    studies: int | None,
    size: int | None,
    rate_text: str | None,
    tau: float | None,
    cases: int | None,
    replications: int | None,
    exact_replications: int | None,
    seed: int | None,
    workers: int,
    as_json: bool,
) -> None:
    """Draw reviews with the study sizes, rate and spread of REVIEW, and pool each by every row.

    Says how often the interval of each row holds the true rate, how far its value is off, what
    difference between levels it shows where there is none (--by), and how often ordinary units
    would be flagged. A layout can also be typed, without a review:

    evsyn calibrate --sizes 20,45,30,60,18 --rate 5% --tau 0.6
    """
    from evsyn.reporting.calibrate_page import calibration_page_json, calibration_page_text

    rate = None if rate_text is None else rate_of(rate_text)
    is_typed = bool(sizes) or studies is not None or size is not None
    if review is not None and is_typed:
        raise click.UsageError(
            "Name a review, or type --sizes (or --studies and --size): not both."
        )
    if review is None and not is_typed:
        raise click.UsageError("Name a review and an outcome, or type --sizes, --rate and --tau.")
    if workers == 0:
        raise click.UsageError("--workers is 1 or more; -1 takes all cores.")
    try:
        if review is not None:
            layout, method, origin = _of_review(review, outcome, level, by, rate, tau, cases)
        else:
            layout, method, origin = _typed(sizes, studies, size, rate, tau, cases, level or by)
        given = {
            "replications": replications, "exact_replications": exact_replications, "seed": seed,
        }  # fmt: skip
        found = _calibrated(layout, method, given, workers)
    except ValueError as error:
        refuse(str(error))
    say((calibration_page_json if as_json else calibration_page_text)(found, origin))


def _of_review(
    folder: Path,
    outcome: str | None,
    level: str | None,
    by: str | None,
    rate: float | None,
    tau: float | None,
    cases: int | None,
) -> "tuple[Layout, Method, Origin]":
    from evsyn.calibration.of_review import layout_of_review
    from evsyn.reporting.calibrate_page import review_origin

    read = readable_review(folder)
    if outcome is None:
        refuse(f"Name an outcome of this review. {offered('', list(read.plan.outcomes))}")
    known(outcome, read.plan.outcomes, "an outcome")
    if by is not None:
        known(by, read.plan.strata, "a stratum")
    at = None if level is None else level_of(level, read)
    found = layout_of_review(read, outcome, at=at, by=by, rate=rate, tau=tau, cases=cases)
    origin = review_origin(read, found, rate=rate is None, tau=tau is None)
    pooling = read.plan.pooling
    return found.layout, Method(pooling.between, pooling.level), origin


def _typed(
    sizes: tuple[str, ...],
    studies: int | None,
    size: int | None,
    rate: float | None,
    tau: float | None,
    cases: int | None,
    of_review: str | None,
) -> "tuple[Layout, Method, Origin]":
    from evsyn.calibration.layout import Layout
    from evsyn.reporting.calibrate_page import typed_origin

    if of_review is not None:
        raise click.UsageError(
            "--by and --level belong to a review; type levels as --sizes old=..."
        )
    if rate is None or tau is None:
        raise click.UsageError("Without a review say what is taken as true: --rate and --tau.")
    if sizes and (studies is not None or size is not None):
        raise click.UsageError("Type --sizes, or --studies with --size: not both.")
    if not sizes and (studies is None or size is None):
        raise click.UsageError("--studies and --size go together.")
    levels = [typed_sizes(one) for one in sizes] or [("", (size or 0,) * (studies or 0))]
    named = tuple((name, numbers) for name, numbers in levels if name)
    if (named and len(named) < len(levels)) or (not named and len(levels) > 1):
        raise click.UsageError("Repeat --sizes for levels only, and name each, as old=20,20,20.")
    every = tuple(number for _, numbers in levels for number in numbers)
    return Layout(every, rate, tau, named, cases), Method(), typed_origin()


def _calibrated(
    layout: "Layout", method: Method, given: dict[str, int | None], workers: int
) -> "Calibration":
    from evsyn.calibration.run import CHUNKS, calibrate

    asked = {name: value for name, value in given.items() if value is not None}
    with steps([""] * CHUNKS, "Simulating") as shown:
        bar = iter(shown)
        next(bar)
        return calibrate(
            layout,
            between=method.between,
            level=method.level,
            **asked,
            workers=workers,
            progress=lambda: next(bar, None),
        )


def rate_of(written: str) -> float:
    """Return ``5%`` or ``0.05`` as a proportion, or stop."""
    text = written.strip()
    try:
        value = float(text.removesuffix("%")) / (100 if text.endswith("%") else 1)
    except ValueError:
        value = -1.0
    if not 0 < value < 1:
        refuse(f"'{written}' is not a rate. Write a percentage, as 5%, or a share, as 0.05.")
    return value


def typed_sizes(written: str) -> tuple[str, tuple[int, ...]]:
    """Return the level and the sizes of ``old=20,45``, the level empty of ``20,45``, or stop."""
    name, _, numbers = written.rpartition("=")
    try:
        return name.strip(), tuple(int(number) for number in numbers.split(","))
    except ValueError:
        refuse(f"'{written}' is not a list of sizes. Write whole numbers and commas, as 20,45,30.")
