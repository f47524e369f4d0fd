"""The list that lies beside the wheels: library, version, licence, and the digest of each file."""

import hashlib
from pathlib import Path

from tests.install.metadata import licence, of_wheel

NAME = "licences.txt"
_HEAD = """\
What lies in this folder, as each library says of itself. The texts of the licences are inside the
wheels, in their folder dist-info. The second list has the SHA-256 digest of each file.
"""


def write_table(folder: Path) -> Path:
    """Write the list of the wheels of a folder beside them."""
    wheels = sorted(folder.glob("*.whl"), key=lambda path: path.name.lower())
    said = [of_wheel(path) for path in wheels]
    libraries = sorted({(m["Name"], m["Version"], licence(m)) for m in said}, key=str)
    widths = [max(len(row[column]) for row in libraries) for column in (0, 1)]
    lines = [_HEAD, "Libraries", ""]
    lines += [f"{n:{widths[0]}}  {v:{widths[1]}}  {words}" for n, v, words in libraries]
    lines += ["", "Files", ""]
    lines += [f"{hashlib.sha256(path.read_bytes()).hexdigest()}  {path.name}" for path in wheels]
    path = folder / NAME
    path.write_text("\n".join(lines) + "\n", encoding="utf-8", newline="\n")
    return path
