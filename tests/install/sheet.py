"""The table of licences on the sheet for the IT department: ``python -m tests.install.sheet``."""

from tests.install.metadata import ROOT, licence, of_installed, with_all_needed
from tests.install.targets import PLATFORMS, PYTHONS

PAGE = ROOT / "docs" / "how-to" / "for-the-it-department.md"
HEAD = "| library | licence |\n|---|---|\n"


def licences() -> dict[str, str]:
    """Return the licence of each library evsyn needs on any computer, as the installed ones say."""
    found = {}
    for platform in PLATFORMS:
        for python in PYTHONS:
            found |= with_all_needed("evsyn", of_installed, platform.environment(python))
    return {name: licence(said) for name, said in sorted(found.items()) if name != "evsyn"}


def table() -> str:
    """Return the table of the sheet."""
    return HEAD + "".join(f"| {name} | {words} |\n" for name, words in licences().items())


if __name__ == "__main__":
    before = PAGE.read_text(encoding="utf-8").partition(HEAD)[0]
    PAGE.write_text(before + table(), encoding="utf-8", newline="\n")
