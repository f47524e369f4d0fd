"""``evsyn schema``: what an editor needs to complete and underline while one types."""

from pathlib import Path

import click

from evsyn.cli.options import readable_plan, review_argument


@click.command(
    "schema",
    short_help="Let an editor complete and underline in a review's own words.",
    epilog="Example: evsyn schema studies/demo",
)
@review_argument
def command(review: Path) -> None:
    """Write the JSON Schemas of the folder REVIEW, in the words of its plan, into REVIEW/schema.

    A file finds its schema by its first line, as '# yaml-language-server:
    $schema=schema/study.json'. An editor that follows it offers the plan's outcomes, levels,
    windows and denominators with their meanings, and underlines what is none of them. Make the
    schemas again when the plan has changed; evsyn check says when.
    """
    from evsyn.extraction.schema.folder import FOLDER, schema_texts
    from evsyn.reporting.files import written_together

    texts = schema_texts(readable_plan(review))
    folder = review / FOLDER
    with written_together(folder) as draft:
        for name, text in texts.items():
            (draft / name).write_text(text, encoding="utf-8", newline="\n")
    for name in texts:
        click.echo(f"Written: {folder / name}")
