"""Everything an audit gives, written into one folder."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from evsyn.cells.cell import Question
from evsyn.extraction.load import CheckedUnit
from evsyn.extraction.plan import Plan
from evsyn.extraction.review import Review
from evsyn.extraction.unit import Unit
from evsyn.reporting.audit_fields import audit_json
from evsyn.reporting.audit_figures import strip_of
from evsyn.reporting.audit_page import audit_text
from evsyn.reporting.files import written_together
from evsyn.reporting.manifest import MANIFEST, manifest_text, products_made
from evsyn.reporting.range_funnel import range_funnel_of
from evsyn.reporting.target_funnel import target_funnel_of
from evsyn.reporting.told_outside import marks_for, tell_for
from evsyn.terms import Audience
from evsyn.wording.audience import period_names

if TYPE_CHECKING:
    from evsyn.figures.shapes import FigureLayout


def write_audit(
    folder: Path,
    review: Review,
    checked: CheckedUnit,
    audience: Audience,
    earlier: CheckedUnit | None = None,
    *,
    command: str,
    unit_files: Sequence[Path],
) -> tuple[Path, ...]:
    """Write text, fields, figures and manifest of an audit, all at once; return the files.

    Parameters
    ----------
    folder : pathlib.Path
        Where to; made if it is missing.
    review : Review
        The review.
    checked : CheckedUnit
        The unit's figures.
    audience : Audience
        Who will see it.
    earlier : CheckedUnit, optional
        The unit's figures of an earlier period.
    command : str
        The command, for the manifest.
    unit_files : sequence of pathlib.Path
        The unit's file, and that of the earlier period.

    Raises
    ------
    OSError
        If the folder cannot be written; nothing in it has then changed.
    ValueError
        If the folder holds what is for another audience.
    """
    from evsyn.figures.write import write_figure

    stem = _stem(checked.unit, audience)
    texts = {
        f"{stem}.txt": audit_text(review, checked, audience, earlier),
        f"{stem}.json": audit_json(review, checked, audience, earlier),
    }
    written = []
    with written_together(folder) as draft:
        for name, text in texts.items():
            (draft / name).write_text(f"{text}\n", encoding="utf-8", newline="\n")
            written.append(name)
        for name, layout in _figures(review, checked, audience, earlier):
            drawn = write_figure(layout, draft / f"{stem}-{name}.svg")
            written += [path.name for path in drawn]
        periods = [checked] if earlier is None else [checked, earlier]
        made = products_made(
            folder,
            {name: (draft / name).read_bytes() for name in written},
            review,
            command=command,
            units=list(zip(unit_files, periods, strict=True)),
            audience=audience,
        )
        text = manifest_text(folder, made)
        (draft / MANIFEST).write_text(f"{text}\n", encoding="utf-8", newline="\n")
    return tuple(folder / name for name in (*written, MANIFEST))


def _stem(unit: Unit, audience: Audience) -> str:
    """Name the products by unit and period; no date goes outside."""
    if audience is Audience.OUTSIDE:
        return f"{unit.unit}-outside"
    return f"{unit.unit}-{unit.period.from_}-to-{unit.period.to}-inside"


def _figures(
    review: Review, checked: CheckedUnit, audience: Audience, earlier: CheckedUnit | None
) -> "Iterator[tuple[str, FigureLayout]]":
    """Yield each figure with its name; outside, those that tell nothing but what may be told."""
    from evsyn.figures.formats import A4
    from evsyn.figures.funnel import funnel_layout
    from evsyn.figures.strip import strip_layout

    unit, plan = checked.unit, review.plan
    tell = tell_for(checked, audience)
    mark, short_mark = marks_for(checked, audience, earlier)
    is_full = audience is Audience.INSIDE or unit.full_release is not None
    units = [checked] if earlier is None else [checked, earlier]
    if audience is Audience.OUTSIDE and earlier is not None:
        units = _undated(checked, earlier)
    reported = [name for name in plan.outcomes if any(name in g.outcomes for g in unit.groups)]
    for outcome in reported if is_full else ():
        strips = strip_of(
            review,
            checked,
            outcome,
            tell=tell,
            mark=mark,
            short_mark=short_mark,
            is_dated=audience is Audience.INSIDE,
        )
        yield f"strip-{outcome}", strip_layout(strips, A4)
    for outcome in (name for name in reported if name in plan.audit.targets):
        target = target_funnel_of(
            review, units, outcome, tell=tell, mark=mark, short_mark=short_mark
        )
        yield f"target-{outcome}", funnel_layout(target, A4)
    asked = _primary_level(plan)
    if is_full and asked is not None and asked.outcome in reported:
        around = range_funnel_of(review, units, asked, tell=tell, mark=mark, short_mark=short_mark)
        yield f"range-{asked.outcome}", funnel_layout(around, A4)


def _undated(checked: CheckedUnit, earlier: CheckedUnit) -> list[CheckedUnit]:
    """Name both periods apart, so that a figure need not tell them apart by their dates."""
    named = zip((checked, earlier), period_names(checked.unit.label), strict=True)
    return [replace(one, unit=one.unit.model_copy(update={"label": label})) for one, label in named]


def _primary_level(plan: Plan) -> Question | None:
    """Return the plan's primary indicator, where it is of a level."""
    named = plan.audit.primary
    if named is None or named.stratum is None or named.level is None:
        return None
    return Question(named.outcome, named.stratum, named.level)
