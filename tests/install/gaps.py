"""What a folder of wheels lacks for a kind of computer, found without asking pip."""

from email.message import Message
from pathlib import Path

from packaging.tags import Tag, compatible_tags, cpython_tags, mac_platforms
from packaging.utils import canonicalize_name, parse_wheel_filename

from tests.install.metadata import needed, of_wheel
from tests.install.targets import Platform


def gaps(folder: Path, platform: Platform, python: str) -> list[str]:
    """Return the names of what evsyn needs there, and of which no wheel lies here that fits."""
    tags = tags_of(platform, python)
    fitting: dict[str, list[tuple[str, Message]]] = {}
    for path in folder.glob("*.whl"):
        name, version, _, marks = parse_wheel_filename(path.name)
        if marks & tags:
            fitting.setdefault(name, []).append((str(version), of_wheel(path)))
    lacking, met, waiting = set(), set(), [("evsyn", "")]
    while waiting:
        name, wanted = waiting.pop()
        met.add((name, wanted))
        here = [said for _, said in fitting.get(name, [])]
        if not here:
            lacking.add(f"{name}{wanted}")
        for said in here:
            for one in needed(said, platform.environment(python)):
                need = canonicalize_name(one.name)
                held = [version for version, _ in fitting.get(need, [])]
                if held and not list(one.specifier.filter(held)):
                    lacking.add(f"{need}{one.specifier}")
                elif (need, str(one.specifier)) not in met:
                    waiting.append((need, str(one.specifier)))
    return sorted(lacking)


def tags_of(platform: Platform, python: str) -> set[Tag]:
    """Return the tags of all wheels that a kind of computer takes."""
    major, minor = map(int, python.split("."))
    names = [platform.tag]
    if platform.system == "Darwin":
        _, first, second, machine = platform.tag.split("_", 3)
        names = list(mac_platforms((int(first), int(second)), machine))
    version, interpreter = (major, minor), f"cp{major}{minor}"
    return {*cpython_tags(version, platforms=names), *compatible_tags(version, interpreter, names)}
