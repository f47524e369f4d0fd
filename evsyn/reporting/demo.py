"""The main job on the demo review, step by step."""

from collections.abc import Iterator
from pathlib import Path

from evsyn.cells.cell import Question
from evsyn.cells.levels import labelled_strata
from evsyn.extraction.load import CheckedUnit
from evsyn.extraction.review import Review
from evsyn.pooling.review import answer_questions
from evsyn.reporting.audit_figures import strip_of
from evsyn.reporting.audit_page import audit_text
from evsyn.reporting.files import write_whole
from evsyn.reporting.findings import findings_text
from evsyn.reporting.forest import forest_of
from evsyn.reporting.manifest import MANIFEST, Product, manifest_text, products_made
from evsyn.reporting.pool_page import pool_page_text
from evsyn.reporting.target_funnel import target_funnel_of
from evsyn.terms import Audience
from evsyn.wording.pooled import pooled_sentence
from evsyn.wording.stale import DEMO_MANIFEST

#: For whom a file is, where it lies, and what it holds.
_Step = tuple[Audience | None, Path, str]


def run_demo(
    review: Review, checked: CheckedUnit, output: Path, *, command: str, unit_file: Path
) -> Iterator[tuple[Path, str]]:
    """Yield each file as it is written, with a sentence on what it holds; the manifests last.

    Parameters
    ----------
    review : Review
        The demo review.
    checked : CheckedUnit
        The demo unit.
    output : pathlib.Path
        Folder to write into.
    command : str
        The command, for the manifests.
    unit_file : pathlib.Path
        The demo unit's file.

    Raises
    ------
    ValueError
        If a folder written into holds a manifest that is none.
    """
    made: dict[Path, list[Product]] = {}
    files: dict[Audience | None, list[Path]] = {}
    for audience, path, said in _steps(review, checked, output):
        files.setdefault(audience, []).append(path)
        yield path, said
    for audience, paths in files.items():
        folder = paths[0].parent
        made.setdefault(folder, []).extend(
            products_made(
                folder,
                {path.name: path.read_bytes() for path in paths},
                review,
                command=command,
                units=[] if audience is None else [(unit_file, checked)],
                audience=audience,
            )
        )
    for folder, products in made.items():
        write_whole(folder / MANIFEST, f"{manifest_text(folder, products)}\n")
        yield folder / MANIFEST, DEMO_MANIFEST.format(folder=folder.as_posix())


def _steps(review: Review, checked: CheckedUnit, output: Path) -> Iterator[_Step]:
    """Yield each file as it is written, for whom it is, and what it holds."""
    from evsyn.figures.forest import forest_layout
    from evsyn.figures.formats import A4, SLIDE
    from evsyn.figures.funnel import funnel_layout
    from evsyn.figures.strip import strip_layout
    from evsyn.figures.write import write_figure

    plan = review.plan
    outcomes = [name for name, words in plan.outcomes.items() if not words.do_not_pool][:3]
    found = findings_text(plan.review, len(review.studies), review.findings, invented=True)
    yield None, *_written(output / "1-check.txt", found, found.partition("\n")[0])
    pooled = pool_page_text(review, outcomes, list(plan.strata), detail=True, look_up=False)
    by = list(labelled_strata(plan))[-1]
    (overall,) = answer_questions(review, [Question(outcomes[0])]).values()
    said = pooled_sentence(overall, event=plan.outcomes[outcomes[0]].event, group="")
    yield None, *_written(output / "2-pool.txt", pooled, said)
    for outcome in outcomes:
        content = forest_of(review, outcome, by, checked, audience=Audience.INSIDE)
        path = output / f"3-forest-{outcome.replace('_', '-')}.svg"
        drawn = write_figure(forest_layout(content, A4), path)
        for file in drawn:
            yield (
                Audience.INSIDE,
                file,
                f"Forest plot of {plan.outcomes[outcome].event}, with the unit.",
            )
    path = output / "4-slide.png"
    for file in write_figure(forest_layout(forest_of(review, outcomes[0], by), SLIDE), path):
        yield None, file, f"A slide for the question about {plan.outcomes[outcomes[0]].event}."
    audited = audit_text(review, checked, Audience.INSIDE)
    said = f"{checked.unit.label} against the review."
    yield Audience.INSIDE, *_written(output / "5-audit.txt", audited, said)
    strips = strip_of(review, checked, outcomes[0], stratum=by)
    for file in write_figure(strip_layout(strips, A4), output / "6-strip.svg"):
        yield Audience.INSIDE, file, "The unit's counts among those of ordinary new units."
    funnel = target_funnel_of(review, [checked], outcomes[0])
    for file in write_figure(funnel_layout(funnel, A4), output / "7-funnel.svg"):
        yield Audience.INSIDE, file, "The unit around the target of the plan."
    told = audit_text(review, checked, Audience.OUTSIDE)
    path = output / "outside" / "8-audit-outside.txt"
    yield Audience.OUTSIDE, *_written(path, told, "What of it may be told outside.")


def _written(path: Path, text: str, said: str) -> tuple[Path, str]:
    write_whole(path, f"{text}\n")
    return path, said
