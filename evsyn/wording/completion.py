"""How to let a shell finish words, said above the lines that do it."""

#: The file each shell reads when a window is opened.
STARTS_WITH = {
    "bash": "~/.bashrc",
    "zsh": "~/.zshrc",
    "fish": "~/.config/fish/config.fish",
}


def switched_on(shell: str) -> str:
    """Say how the lines below are switched on and off, as comments of the shell."""
    file = STARTS_WITH[shell]
    return "\n".join(
        (
            "# With these lines the Tab key finishes verbs, options, and the outcomes, strata and",
            "# studies of the review named before them.",
            f"# To switch it on: evsyn completion {shell} >> {file}",
            "# Then open a new window. To switch it off, delete these lines from that file.",
        )
    )


def last_line() -> str:
    """Mark the end of what is to be deleted again."""
    return "# (The end of the lines for evsyn.)"
