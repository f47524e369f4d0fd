"""``evsyn ask``: questions asked of a pool."""

import importlib

import click

QUESTIONS = ("differ", "lean", "over-time", "vary", "regress", "small")


class _Questions(click.Group):
    """A group whose questions are imported when asked, so that help answers at once."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        return list(QUESTIONS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        if cmd_name not in QUESTIONS:
            return None
        command = importlib.import_module(f"evsyn.cli.ask.{cmd_name.replace('-', '_')}").command
        return command if isinstance(command, click.Command) else None


@click.command(
    "ask",
    cls=_Questions,
    short_help="Ask more of a pool: what carries it, what would move it.",
    epilog="Example: evsyn ask lean studies/demo perforation",
)
def command() -> None:
    """Ask a question of a pool of the folder REVIEW.

    Each answer says how many pools were looked at and how many tests were made: what stands out
    among many is often chance.
    """
