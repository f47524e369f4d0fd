"""``evsyn demo``: the main job from end to end on the invented review."""

from pathlib import Path

import click


@click.command(
    "demo",
    short_help="Run the main job on the invented demo review.",
    epilog="Example: evsyn demo -o outputs/demo",
)
@click.option(
    "-o",
    "--output",
    type=click.Path(path_type=Path, file_okay=False),
    default=Path("outputs/demo"),
    show_default=True,
    help="Folder to write into.",
)
def command(output: Path) -> None:
    """Check, pool, draw and audit the demo review, and write each result into a folder.

    Everything in it is invented and marked so. Read the files in the order they are listed.
    """
    from evsyn.cli.options import readable_review, readable_unit, refuse, say
    from evsyn.reporting.demo import demo_folder, run_demo

    folder = demo_folder()
    if folder is None:
        refuse("The demo review is not installed; run this from a checkout.")
    review = readable_review(folder)
    unit = readable_unit(next(iter(sorted(folder.glob("unit-*.yaml")))), review)
    with click.progressbar(
        run_demo(review, unit, output), length=10, label="evsyn demo", show_pos=True
    ) as steps:
        written = list(steps)
    for path, said in written:
        say(f"{path}\n    {said}")
