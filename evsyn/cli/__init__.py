"""The command line: one file a verb, each loaded only when it is asked for."""

import importlib
import os
import sys
from pathlib import Path
from typing import Any

import click

#: Where the words of the command line are kept.
TYPED = "evsyn.typed"

#: The variable by which a shell asks for words to offer.
COMPLETION = "_EVSYN_COMPLETE"

VERBS = (
    "demo",
    "check",
    "cite",
    "add",
    "new",
    "schema",
    "sheet",
    "pool",
    "ask",
    "forest",
    "audit",
    "strip",
    "funnel",
    "claim",
    "reproduce",
    "calibrate",
    "report",
    "trace",
    "stale",
    "completion",
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

    def parse_args(self, ctx: click.Context, args: list[str]) -> list[str]:
        """Say the first steps to someone who has typed no verb, which is no mistake."""
        if not args and not ctx.resilient_parsing:
            from evsyn.wording.first_steps import first_steps

            click.echo(first_steps(ctx.command_path))
            ctx.exit()
        return super().parse_args(ctx, args)

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        """Find the verb, or stop with the nearest one."""
        word = args[0]
        if word not in VERBS and not word.startswith("-") and not ctx.resilient_parsing:
            ctx.fail(_unknown(word, ctx.command_path))
        return super().resolve_command(ctx, args)

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


def _unknown(word: str, program: str) -> str:
    from evsyn.cli.options import offered
    from evsyn.wording.first_steps import no_such_verb, verb_is_missing

    if Path(word).exists():
        return verb_is_missing(word, f"{program} check")
    return no_such_verb(word, offered(word, VERBS))


def main() -> None:
    """Run the command line on a console made fit for it."""
    from evsyn.cli.console import ready_console, ready_drawing, ready_file_names

    ready_file_names()
    ready_console()
    ready_drawing()
    # The shell asks for words by this variable, however the program was started.
    cli(complete_var=COMPLETION)
