"""What was read and checked, in words."""

from evsyn.wording.numbers import counted

UNIT_READ = "the unit's figures read"


def claims_read(number: int) -> str:
    """Say how many sentences were read."""
    return f"{counted(number, 'sentence', 'sentences')} read"


def guidelines_read(number: int) -> str:
    """Say how many statements of guidelines were read."""
    return f"{counted(number, 'statement', 'statements')} of guidelines read"


def which_review(path: str) -> str:
    """Ask for the review whose words a file uses."""
    return (
        f"{path} is a file. Of a unit file, of claims or of guidelines, say the review whose words "
        "it uses: --against FOLDER. A plan or an extract is checked with its folder."
    )
