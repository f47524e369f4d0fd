"""Write a whole record as YAML, in the style of the extracts."""

import textwrap
from collections.abc import Iterator, Mapping, Sequence

from evsyn.extraction.writing.scalar import WIDTH, folded, scalar

STEP = 2
KeyPath = tuple[str | int, ...]


def yaml_text(record: Mapping[str, object], comments: Mapping[KeyPath, str] | None = None) -> str:
    """Return the text of a new file.

    Parameters
    ----------
    record : mapping
        What the file holds, in the order it is to stand; values that are ``None`` are left out.
    comments : mapping, optional
        What is said above a key, by the path of the key: ``("arms", 0, "outcomes")``. The empty
        path stands for the head of the file.

    Returns
    -------
    str
        YAML in block style, at most 100 columns wide where words allow it.
    """
    said = comments or {}
    lines = [*_comment(said.get((), ""), 0), *block_lines(record, 0, said)]
    return "\n".join(lines) + "\n"


def block_lines(
    record: Mapping[str, object],
    indent: int,
    comments: Mapping[KeyPath, str] | None = None,
    path: KeyPath = (),
) -> Iterator[str]:
    """Yield the lines of one block, indented by ``indent`` spaces."""
    said = comments or {}
    for key, value in record.items():
        if value is None:
            continue
        here = (*path, key)
        yield from _comment(said.get(here, ""), indent)
        yield from _entry(" " * indent + f"{scalar(key)}:", value, indent, said, here)


def item_lines(
    value: object, indent: int, comments: Mapping[KeyPath, str] | None = None, path: KeyPath = ()
) -> Iterator[str]:
    """Yield the lines of one item of a list, its dash at column ``indent``."""
    said = comments or {}
    if isinstance(value, Mapping):
        lines = list(block_lines(value, indent + STEP, said, path)) or [" " * indent + "  {}"]
        first = next(place for place, line in enumerate(lines) if line.lstrip()[:1] != "#")
        yield from lines[:first]
        yield " " * indent + "- " + lines[first][indent + STEP :]
        yield from lines[first + 1 :]
    else:
        yield from _entry(" " * indent + "-", value, indent, said, path)


def flow(value: object) -> str:
    """Return a value on one line, groups between brackets."""
    if isinstance(value, Mapping):
        kept = {key: one for key, one in value.items() if one is not None}
        return "{" + ", ".join(f"{scalar(key)}: {flow(one)}" for key, one in kept.items()) + "}"
    if isinstance(value, Sequence) and not isinstance(value, str):
        return "[" + ", ".join(flow(one) for one in value) + "]"
    return scalar(value)


def _entry(
    head: str, value: object, indent: int, said: Mapping[KeyPath, str], path: KeyPath
) -> Iterator[str]:
    if isinstance(value, Mapping) and value:
        yield head
        yield from block_lines(value, indent + STEP, said, path)
    elif isinstance(value, Sequence) and not isinstance(value, str) and not _short(value, head):
        yield head
        for place, item in enumerate(value):
            yield from item_lines(item, indent + STEP, said, (*path, place))
    elif isinstance(value, (Mapping, Sequence)) and not isinstance(value, str):
        yield f"{head} {flow(value)}"
    else:
        yield f"{head} {folded(value, indent + STEP, len(head) + 1)}"


def _short(items: Sequence[object], head: str) -> bool:
    """Return whether a list of numbers fits on the line of its key."""
    numbers = all(isinstance(item, (int, float)) for item in items)
    return numbers and len(head) + 1 + len(flow(items)) <= WIDTH


def _comment(text: str, indent: int) -> Iterator[str]:
    for line in text.splitlines():
        before = " " * indent + "# "
        wrapped = textwrap.wrap(
            line, WIDTH - len(before), break_long_words=False, break_on_hyphens=False
        )
        for part in wrapped or [""]:
            yield (before + part).rstrip()
