"""``evsyn completion``: let the shell finish verbs, options and the names of a review."""

import click

from evsyn.wording.completion import STARTS_WITH

#: What zsh needs before it takes words from any program; a new account has not got it.
_BEFORE = {"zsh": "(( $+functions[compdef] )) || { autoload -Uz compinit && compinit }\n"}


@click.command(
    "completion",
    short_help="Let the Tab key finish verbs, options and names.",
    epilog="Example: evsyn completion bash >> ~/.bashrc",
)
@click.argument("shell", type=click.Choice(list(STARTS_WITH)))
def command(shell: str) -> None:
    """Print the lines by which SHELL finishes words, and how to switch them on.

    Outcomes, strata and studies are those of the review named earlier on the line.
    """
    from click.shell_completion import get_completion_class

    from evsyn.cli import COMPLETION, cli
    from evsyn.cli.options import say
    from evsyn.wording.completion import last_line, switched_on

    kind = get_completion_class(shell)
    assert kind is not None, shell
    made = kind(cli, {}, "evsyn", COMPLETION)
    lines = (made.source_template % made.source_vars()).strip()
    say(f"{switched_on(shell)}\n{_BEFORE.get(shell, '')}{lines}\n{last_line()}")
