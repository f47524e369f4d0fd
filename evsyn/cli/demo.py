"""x"""

import click


@click.command("demo", short_help="Run the main job on the invented demo review.")
def command() -> None:
    """Run."""
