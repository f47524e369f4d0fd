"""``evsyn new``: the first version of a file, from answers."""

import importlib

import click

KINDS = ("review", "study", "unit")


class _Kinds(click.Group):
    """A group whose verbs are imported when used, so that help answers at once."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        return list(KINDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        if cmd_name not in KINDS:
            return None
        command = importlib.import_module(f"evsyn.cli.new.{cmd_name}").command
        return command if isinstance(command, click.Command) else None


@click.command(
    "new",
    cls=_Kinds,
    short_help="Write the first version of a review, a study or a unit file.",
    epilog="Example: evsyn new study studies/demo",
)
def command() -> None:
    """Write the first version of a file from answers, each part with a word on what belongs there.

    On a terminal it asks, one question at a time, and shows the names the review's plan has. What
    an option gives is not asked. In a script, or with --no-ask, every answer comes from an option,
    and those that are missing are listed. No file that exists is written over.
    """
