"""A typed pooling for the tests: read from the published ones, or a small invented one."""

from functools import cache
from pathlib import Path

from evsyn.reproduction.load import CheckedPooling, read_pooling
from evsyn.reproduction.verdict import Reproduction, reproduce

PUBLISHED = Path(__file__).parent / "published"

#: Invented: three trials of the demo scenario; its numbers are no check value.
INVENTED = """\
format: 1
pooling: marrowdale
about: Alder A, Bilberry B. Stents or none. Marrowdale Med J 2001;1:1-9
invented: true
measure: odds ratio
rows:
  - {study: Alder 1996, first: {events: 4, total: 40}, second: {events: 9, total: 41}}
  - {study: Bilberry 1998, first: {events: 6, total: 55}, second: {events: 8, total: 50}}
  - {study: Campion 1999, first: {events: 3, total: 30}, second: {events: 5, total: 31}}
printed:
  overall: {estimate: 0.50}
"""


def typed(folder: Path, *changes: tuple[str, str], text: str = INVENTED) -> CheckedPooling:
    """Read a pooling after changes of its text, each of which must have something to change."""
    for old, new in changes:
        assert old in text, old
        text = text.replace(old, new)
    path = folder / "typed.yaml"
    path.write_text(text, encoding="utf-8")
    return read_pooling(path)


def published(name: str) -> str:
    """Return the text of a published pooling."""
    return (PUBLISHED / f"{name}.yaml").read_text(encoding="utf-8")


@cache
def redone(name: str) -> Reproduction:
    """Return what becomes of a published pooling."""
    return reproduce(read_pooling(PUBLISHED / f"{name}.yaml"))
