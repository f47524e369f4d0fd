"""What wheels and installed libraries say of themselves: version, licence, what they need."""

import importlib.metadata
import tomllib
import zipfile
from collections.abc import Callable, Iterable, Mapping
from email.message import Message
from email.parser import HeaderParser
from pathlib import Path
from typing import Any

from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

ROOT = Path(__file__).parent.parent.parent
#: A licence named in a line; longer fields hold the text of one.
_LONGEST_NAME = 60
_CLASS = "License :: OSI Approved :: "


def of_wheel(path: Path) -> Message:
    """Return the metadata inside a wheel."""
    with zipfile.ZipFile(path) as wheel:
        (name,) = [n for n in wheel.namelist() if n.endswith(".dist-info/METADATA")]
        return HeaderParser().parsestr(wheel.read(name).decode("utf-8"))


def of_installed(name: str) -> Message:
    """Return the metadata of an installed library; of evsyn as its project file says it now."""
    if name != "evsyn":
        found: Any = importlib.metadata.metadata(name)
        return found
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    said = Message()
    said["Name"], said["License-Expression"] = name, project["license"]
    for line in project["dependencies"]:
        said["Requires-Dist"] = line
    return said


def licence(said: Message) -> str:
    """Return the licence a library names: by its expression, its field, or its class."""
    field = (said["License"] or "").strip()
    classes = [c for c in said.get_all("Classifier", []) if c.startswith(_CLASS)]
    if said["License-Expression"]:
        return said["License-Expression"]
    if field and "\n" not in field and len(field) <= _LONGEST_NAME:
        return field
    return "; ".join(c.removeprefix(_CLASS) for c in classes) or "named inside the library"


def needed(said: Message, environment: Mapping[str, str] | None = None) -> Iterable[Requirement]:
    """Yield what a library needs of others in an environment; in this one by default."""
    for line in said.get_all("Requires-Dist", []):
        requirement = Requirement(line)
        where = {"extra": "", **(environment or {})}
        if requirement.marker is None or requirement.marker.evaluate(where):
            yield requirement


def with_all_needed(
    root: str,
    metadata_of: Callable[[str], Message],
    environment: Mapping[str, str] | None = None,
) -> dict[str, Message]:
    """Return the metadata of a library and of all that it needs, by name."""
    found: dict[str, Message] = {}
    waiting = [root]
    while waiting:
        name = canonicalize_name(waiting.pop())
        if name not in found:
            found[name] = metadata_of(name)
            waiting += [one.name for one in needed(found[name], environment)]
    return dict(sorted(found.items()))
