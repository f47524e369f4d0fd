"""The command line: one file a verb, each loaded only when it is asked for."""

import importlib
import os
import sys
from typing import Any

import click

#: Where the words of the command line are kept.
TYPED = "evsyn.typed"

VERBS = (
    "demo",
    "check",
    "pool",
    "forest",
    "audit",
    "strip",
    "funnel",
    "claim",
    "report",
    "trace",
    "stale",
)


class _Verbs(click.Group):
    """A group whose verbs are imported when used, so that help answers at once."""

    def make_context(
        self,
        info_name: str | None,
        args: list[str],
        parent: click.Context | None = None,
        **extra: Any,
    ) -> click.Context:
        """Keep the words as they were typed, for what is made to say how."""
        typed = list(args)
        context = super().make_context(info_name, args, parent, **extra)
        context.meta[TYPED] = typed
        return context

    def list_commands(self, ctx: click.Context) -> list[str]:
        return list(VERBS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        if cmd_name not in VERBS:
            return None
        command = importlib.import_module(f"evsyn.cli.{cmd_name}").command
        return command if isinstance(command, click.Command) else None

    def invoke(self, ctx: click.Context) -> object:
        """Run the verb; a file that cannot be read or written is told in a sentence."""
        try:
            done = super().invoke(ctx)
            sys.stdout.flush()
        except BrokenPipeError:
            # Whoever read along has seen enough, as `head` does.
            os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
            return None
        except OSError as error:
            what = f"{error.filename}: " if error.filename else ""
            click.echo(f"{what}{error.strerror or error}. Nothing else was written.", err=True)
            raise SystemExit(1) from None
        return done


@click.command(
    cls=_Verbs,
    context_settings={"help_option_names": ["-h", "--help"]},
    epilog="Start with: evsyn demo",
)
@click.version_option(package_name="evsyn", message="evsyn %(version)s")
def cli() -> None:
    """Pool published counts one can trace, and place a unit's own figures.

    evsyn supports clinicians. It never replaces local protocol, licensed judgement or
    governance.
    """


def main() -> None:
    """Run the command line; what cannot be written in the console's alphabet becomes ``?``."""
    for stream in (sys.stdout, sys.stderr):
        reconfigure = getattr(stream, "reconfigure", None)
        if reconfigure is not None:
            reconfigure(errors="replace")
    cli()
