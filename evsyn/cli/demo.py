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

    Everything in it is invented and marked so. Read the files in the order they are listed. What
    may be told outside the unit has a folder of its own.
    """
    from evsyn.cli.options import readable_review, readable_unit, refuse, say, typed
    from evsyn.reporting.demo import run_demo
    from evsyn.reporting.installed import demo_folder

    folder = demo_folder()
    if folder is None:
        refuse("The demo review is not installed; run this from a checkout.")
    review = readable_review(folder)
    unit_file = next(iter(sorted(folder.glob("unit-*.yaml"))))
    steps = run_demo(
        review, readable_unit(unit_file, review), output, command=typed(), unit_file=unit_file
    )
    with click.progressbar(steps, length=12, label="evsyn demo", show_pos=True) as shown:
        try:
            written = list(shown)
        except ValueError as error:
            refuse(f"{error}.")
    for path, said in written:
        say(f"{path}\n    {said}")
