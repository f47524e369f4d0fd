"""Files that look like extracts and are not read: a wrong ending, a hidden copy, a subfolder."""

from collections.abc import Iterator
from pathlib import Path

from evsyn.terms import Finding, Severity, Source

RULE = "file-unread"
WHY = (
    "A file whose name ends in .yaml.txt or .yaml~, a hidden copy, or an extract in a subfolder "
    "would be missing from every pool unseen."
)
ENDINGS = (".yaml", ".yml")


def unread_files(folder: Path) -> Iterator[Finding]:
    """Yield a doubt for each file that was meant to be read, by its name, and is not.

    Parameters
    ----------
    folder : pathlib.Path
        Folder of the review.
    """
    for path in sorted(folder.iterdir()):
        name = path.name.lower()
        if path.is_dir():
            inside = [one for one in path.iterdir() if one.suffix.lower() in ENDINGS]
            if inside and not name.startswith("."):
                message = f"not read: {len(inside)} YAML files in the folder {path.name}"
                yield _doubt(path.name, message, "Move them beside review.yaml.")
            continue
        hidden = name.startswith(".") and name.endswith(ENDINGS)
        if hidden or (not name.endswith(ENDINGS) and any(end in name for end in ENDINGS)):
            message = f"not read: {path.name}, whose name does not end in .yaml"
            if hidden:
                message = f"not read: {path.name}, whose name begins with a full stop"
            yield _doubt(path.name, message, "Rename it, or take it out of the folder.")


def _doubt(name: str, message: str, cure: str) -> Finding:
    return Finding(RULE, Severity.DOUBT, Source(name, 0), message, cure)
