"""A verb of several words, each in a file of its own that is read when it is asked for."""

import importlib
from typing import Any

import click


class WordGroup(click.Group):
    """A group whose words are imported when used, and that offers the nearest of them.

    Parameters
    ----------
    words : tuple of str
        The words, in the order to show.
    room : str
        Package that holds a module a word, with ``_`` for ``-``.
    """

    def __init__(self, *args: Any, words: tuple[str, ...], room: str, **more: Any) -> None:
        super().__init__(*args, **more)
        self.words, self.room = words, room

    def list_commands(self, ctx: click.Context) -> list[str]:
        """Return the words in order."""
        return list(self.words)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        """Read the module of a word."""
        if cmd_name not in self.words:
            return None
        module = importlib.import_module(f"{self.room}.{cmd_name.replace('-', '_')}")
        return module.command if isinstance(module.command, click.Command) else None

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        """Find the word, or stop with the nearest one."""
        word = args[0]
        if word not in self.words and not word.startswith("-") and not ctx.resilient_parsing:
            from evsyn.cli.options import offered
            from evsyn.wording.first_steps import no_such_word

            ctx.fail(no_such_word(word, ctx.command_path, offered(word, self.words)))
        return super().resolve_command(ctx, args)
