"""Names of a review that the shell offers while one types: outcomes, strata, studies.

Only the plan is read, and the names of the files, since whoever types does not wait. Where the
plan cannot be read nothing is offered; the verb itself then says why.
"""

from collections.abc import Iterable
from pathlib import Path
from typing import TYPE_CHECKING

import click

if TYPE_CHECKING:
    from evsyn.extraction.plan import Plan


def outcome_names(ctx: click.Context, _param: click.Parameter, begun: str) -> list[str]:
    """Return the outcomes of the review on the line that begin so."""
    plan = _plan(ctx)
    return [] if plan is None else _beginning(begun, plan.outcomes)


def stratum_names(ctx: click.Context, _param: click.Parameter, begun: str) -> list[str]:
    """Return the strata of the review on the line that begin so."""
    plan = _plan(ctx)
    return [] if plan is None else _beginning(begun, plan.strata)


def traceable_names(ctx: click.Context, param: click.Parameter, begun: str) -> list[str]:
    """Return the outcomes and the studies of the review on the line that begin so."""
    folder = _folder(ctx)
    if folder is None:
        return []
    # A study is called as its file, which begins with a year; a unit's file does not.
    studies = sorted(path.stem for path in folder.glob("[0-9]*.y*ml"))
    return [*outcome_names(ctx, param, begun), *_beginning(begun, studies)]


def _folder(ctx: click.Context) -> Path | None:
    # An option that still waits for its word keeps the arguments before it from being sorted, so
    # the review is then the first folder on the line.
    given = ctx.params.get("review")
    words = ctx.meta.get("evsyn.typed", []) if given is None else [given]
    return next((Path(word) for word in words if Path(word).is_dir()), None)


def _plan(ctx: click.Context) -> "Plan | None":
    folder = _folder(ctx)
    if folder is None:
        return None
    from evsyn.extraction.load import PLAN_FILE, read_record
    from evsyn.extraction.plan import Plan

    return read_record(folder / PLAN_FILE, Plan)[0]


def _beginning(begun: str, names: Iterable[str]) -> list[str]:
    return [name for name in names if name.startswith(begun)]
