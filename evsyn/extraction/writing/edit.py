"""Change values in an existing YAML text, and leave every other letter as it was."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

import yaml

from evsyn.extraction.writing.scalar import folded, quoted
from evsyn.extraction.writing.text import KeyPath, block_lines, flow, item_lines
from evsyn.extraction.yaml_text import Decimal, Whole, parse_bytes

Group = yaml.MappingNode | yaml.SequenceNode


class EditError(Exception):
    """Raised where a change cannot be made without touching what lies beside it."""


@dataclass(frozen=True, slots=True)
class Change:
    """One value to set: ``("arms", 0, "patients")`` to 31.

    Parameters
    ----------
    path : tuple of str or int
        Keys and places from the root. A place equal to the length of its list appends to it.
    value : object
        A text, number, truth value, mapping or sequence. A mapping is set key by key, so that
        what it does not name stays; a sequence takes the place of the old one.
    """

    path: KeyPath
    value: object


def edited(text: str, changes: Sequence[Change]) -> str:
    """Return the text with each value set.

    Parameters
    ----------
    text : str
        A file that reads well.
    changes : sequence of Change
        In order. A value that already stands there changes nothing.

    Raises
    ------
    EditError
        If the text cannot be read, a path leads through a value that is no group, or the
        changed text would not be read back as meant.
    """
    for change in changes:
        for path, value in _single(text, change.path, change.value):
            text = _set(text, path, value)
    return text


def same(read: Any, value: object) -> bool:
    """Return whether a value that was read is the value meant, numbers as they were written."""
    if isinstance(value, Mapping):
        return (
            isinstance(read, dict)
            and read.keys() == {key for key, one in value.items() if one is not None}
            and all(same(read[key], one) for key, one in value.items() if one is not None)
        )
    if isinstance(value, str):
        written = read.written if isinstance(read, (Whole, Decimal)) else read
        return bool(written == value)
    if isinstance(value, Sequence):
        alike = isinstance(read, list) and len(read) == len(value)
        return alike and all(same(one, meant) for one, meant in zip(read, value, strict=True))
    return isinstance(read, bool) == isinstance(value, bool) and bool(read == value)


def _single(text: str, path: KeyPath, value: object) -> list[tuple[KeyPath, object]]:
    """Take a mapping apart where one stands already, so that what it does not name is kept."""
    there = _value_at(_root(text), path)
    if isinstance(value, Mapping) and isinstance(there, dict) and there:
        return [
            one
            for key, part in value.items()
            if part is not None
            for one in _single(text, (*path, key), part)
        ]
    return [] if there is not None and same(there, value) else [(path, value)]


def _set(text: str, path: KeyPath, value: object) -> str:
    node: Any = yaml.compose(text, Loader=yaml.SafeLoader)
    made = path
    in_flow = False
    while made and (below := _below(node, made[0])) is not None:
        in_flow |= bool(node.flow_style)
        node, made = below, made[1:]
    if made and _is_null(node):
        changed = _replaced(text, node, _nested(made, value), in_flow)
    elif made:
        changed = _inserted(text, node, made[0], _nested(made[1:], value))
    else:
        changed = _replaced(text, node, value, in_flow)
    found = _value_at(_root(changed), path)
    if not same(found, value):
        raise EditError(f"the value of {'.'.join(map(str, path))} could not be set in place")
    return changed


def _root(text: str) -> Any:
    parsed = parse_bytes(text.encode())
    if parsed.root is None:
        first = parsed.troubles[0]
        raise EditError(f"line {first.line}: {first.message}")
    return parsed.root


def _value_at(root: Any, path: KeyPath) -> Any:
    for step in path:
        if isinstance(root, dict):
            root = root.get(step)
        elif isinstance(root, list) and isinstance(step, int) and step < len(root):
            root = root[step]
        else:
            return None
    return root


def _below(node: Any, step: str | int) -> Any:
    if isinstance(node, yaml.MappingNode):
        return next((value for key, value in node.value if key.value == step), None)
    if isinstance(node, yaml.SequenceNode) and isinstance(step, int) and step < len(node.value):
        return node.value[step]
    return None


def _nested(path: KeyPath, value: object) -> object:
    for step in reversed(path):
        if isinstance(step, int) and step != 0:
            raise EditError("an item can only be added at the end of its list")
        value = [value] if isinstance(step, int) else {step: value}
    return value


def _is_null(node: Any) -> bool:
    return isinstance(node, yaml.ScalarNode) and node.style is None and node.value in ("", "~")


def _replaced(text: str, node: Any, value: object, in_flow: bool) -> str:
    start, end = node.start_mark.index, _end(text, node)
    if isinstance(value, str) or not isinstance(value, (Mapping, Sequence)):
        new = _new_scalar(text, node, value)
    elif in_flow or not value or (isinstance(node, Group) and (node.flow_style or not node.value)):
        new = flow(value)
    elif isinstance(node, Group) or text[:start].rstrip(" ").endswith("-"):
        new = "\n".join(_group_lines(value, node.start_mark.column)).lstrip()
    else:
        # The key stays alone on its line, with its remark: what belongs to it goes below.
        lines = _group_lines(value, _indent_of(text, start) + 2)
        text, start = text[:start].rstrip(" ") + text[end:], len(text[:start].rstrip(" "))
        start = end = _line_stop(text, start)
        new = "\n" + "\n".join(lines)
    return text[:start] + new.replace("\n", _line_end(text)) + text[end:]


def _new_scalar(text: str, node: Any, value: object) -> str:
    start = node.start_mark.index
    space = " " if start and text[start - 1] == ":" else ""
    marked = isinstance(node, yaml.ScalarNode) and node.style in ('"', "'")
    if marked and isinstance(value, str):
        return space + quoted(value)
    return space + folded(value, _indent_of(text, start) + 2, node.start_mark.column)


def _inserted(text: str, node: Any, step: str | int, value: object) -> str:
    """Add a key to a mapping, or an item at the end of a list."""
    if not isinstance(node, Group) or isinstance(step, int) is not isinstance(
        node, yaml.SequenceNode
    ):
        raise EditError(f"'{step}' cannot stand here: the line above holds a value already")
    if isinstance(step, int) and step != len(node.value):
        raise EditError("an item can only be added at the end of its list")
    if node.flow_style:
        entry = flow(value) if isinstance(step, int) else flow({step: value})[1:-1]
        at = _end(text, node) - 1
        if node.value:
            at = _end(text, _last(node))
            entry = f", {entry}"
        return text[:at] + entry + text[at:]
    column = node.start_mark.column
    if isinstance(step, int):
        lines = list(item_lines(value, column))
    else:
        lines = list(block_lines({step: value}, column))
    at = _line_stop(text, _end(text, node))
    line_end = _line_end(text)
    return text[:at] + line_end + line_end.join(lines) + text[at:]


def _group_lines(value: object, indent: int) -> list[str]:
    if isinstance(value, Mapping):
        return list(block_lines(value, indent))
    assert isinstance(value, Sequence)
    return [line for item in value for line in item_lines(item, indent)]


def _last(node: Group) -> Any:
    last = node.value[-1]
    return last[1] if isinstance(node, yaml.MappingNode) else last


def _end(text: str, node: Any) -> int:
    """Return where the last letter of a node stands; block groups end late, at the next word."""
    while isinstance(node, Group) and not node.flow_style and node.value:
        node = _last(node)
    end = int(node.end_mark.index)
    if isinstance(node, yaml.ScalarNode) and node.style in ("|", ">"):
        return len(text[:end].rstrip())
    return end


def _line_stop(text: str, at: int) -> int:
    """Return the end of the line that holds ``at``, a remark behind the value included."""
    if at and text[at - 1] in "\r\n":
        return len(text[:at].rstrip("\r\n"))
    stops = [found for end in "\r\n" if (found := text.find(end, at)) >= 0]
    return min(stops, default=len(text))


def _indent_of(text: str, at: int) -> int:
    """Return the column at which the key before ``at`` stands."""
    line = text[max(text.rfind("\n", 0, at), text.rfind("\r", 0, at)) + 1 : at]
    bare = line.lstrip(" ")
    while bare.startswith("- "):
        bare = bare[1:].lstrip(" ")
    return len(line) - len(bare)


def _line_end(text: str) -> str:
    return "\r\n" if "\r\n" in text else "\n"
