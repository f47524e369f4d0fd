"""x"""

import click


@click.command("forest", short_help="Run the main job on the invented forest review.")
def command() -> None:
    """Run."""
