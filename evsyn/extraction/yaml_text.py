"""Read YAML by the rules of version 1.2, keeping the line of every value.

The usual Python loaders follow version 1.1, under which ``no`` is false, ``012`` is ten and
``1:30`` is ninety; and they let the second of two equal keys win in silence. A clinician who
copies a table into a file should meet none of that. The file is read as a flat stream of parse
events with a stack of our own, so that no depth of nesting can exhaust the interpreter's.

Source of the scalar rules: YAML 1.2.2, chapter 10.3, core schema.
"""

import math
import re
from dataclasses import dataclass
from typing import Any

import yaml

_Loader: type = getattr(yaml, "CSafeLoader", yaml.SafeLoader)

MAX_DEPTH = 24
MAX_DIGITS = 15

_NULL = re.compile(r"~|null|Null|NULL|")
_TRUE = re.compile(r"true|True|TRUE")
_FALSE = re.compile(r"false|False|FALSE")
_INTEGER = re.compile(r"[-+]?[0-9]+|0o[0-7]+|0x[0-9a-fA-F]+")
_FLOAT = re.compile(r"[-+]?(\.[0-9]+|[0-9]+(\.[0-9]*)?)([eE][-+]?[0-9]+)?")


class Whole(int):
    """A whole number that remembers how it was written."""

    written: str


class Decimal(float):
    """A decimal number that remembers how it was written, trailing zeros included."""

    written: str


class Block(dict[str, Any]):
    """A group of ``key: value`` lines, with its place in the file and the line of each key."""

    def __init__(self, line: int, path: str) -> None:
        super().__init__()
        self.line = line
        self.path = path
        self.key_lines: dict[str, int] = {}


class Items(list[Any]):
    """A list, with its place in the file and the line of each item."""

    def __init__(self, line: int, path: str) -> None:
        super().__init__()
        self.line = line
        self.path = path
        self.item_lines: list[int] = []


@dataclass(frozen=True, slots=True)
class Trouble:
    """One thing that keeps a file from being read: line, what is wrong, what to do."""

    line: int
    message: str
    cure: str


@dataclass(frozen=True, slots=True)
class Parsed:
    """What a file holds; ``root`` is ``None`` where it could not be read."""

    root: Block | None
    troubles: tuple[Trouble, ...] = ()


def parse_bytes(raw: bytes) -> Parsed:
    """Read one YAML file.

    Parameters
    ----------
    raw : bytes
        The file as it lies on disk; a byte-order mark and Windows line ends are accepted.

    Returns
    -------
    Parsed
        The root block, or the troubles that keep it from being read. Equal keys are all told.
    """
    try:
        text = raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = raw[: error.start].count(b"\n") + 1
        return _unreadable(
            line,
            "the file is not written in UTF-8",
            "Save it again with the encoding UTF-8 (in most editors: Save as, Encoding).",
        )
    if not text.strip():
        return _unreadable(1, "the file is empty", "Write the extract, or delete the file.")
    builder = _Builder()
    try:
        for event in yaml.parse(text, Loader=_Loader):
            builder.take(event)
    except _RefusedError as refusal:
        return Parsed(None, (*builder.troubles, refusal.trouble))
    except yaml.MarkedYAMLError as error:
        return Parsed(None, (*builder.troubles, _syntax_trouble(error, text)))
    except yaml.YAMLError as error:
        line = text[: getattr(error, "position", 0)].count("\n") + 1
        return _unreadable(
            line,
            "the file holds a character that YAML does not allow",
            "Delete the invisible control character on that line.",
        )
    root = builder.root
    if builder.troubles:
        return Parsed(None, tuple(builder.troubles))
    if not isinstance(root, Block):
        return _unreadable(
            1, "the file holds no 'key: value' lines", "Start from a study that reads well."
        )
    return Parsed(root)


def _unreadable(line: int, message: str, cure: str) -> Parsed:
    return Parsed(None, (Trouble(line, message, cure),))


def _syntax_trouble(error: yaml.MarkedYAMLError, text: str) -> Trouble:
    mark = error.problem_mark or error.context_mark
    line = mark.line + 1 if mark is not None else 1
    lines = text.splitlines()
    written = lines[line - 1] if line <= len(lines) else ""
    if "\t" in written[: len(written) - len(written.lstrip())] or "\\t" in str(error.problem):
        return Trouble(line, "the line is indented with a tab", "Use spaces instead of the tab.")
    if "mapping values are not allowed" in str(error.problem):
        return Trouble(
            line,
            "there is a second colon in this line",
            "Put the text after the first colon between quotation marks.",
        )
    return Trouble(
        line,
        f"the line does not fit YAML ({error.problem or 'unreadable'})",
        "Look for a missing quotation mark, bracket or space after a colon here or just above.",
    )


class _RefusedError(Exception):
    """Raised inside this module when reading cannot go on."""

    def __init__(self, line: int, message: str, cure: str) -> None:
        super().__init__(message)
        self.trouble = Trouble(line, message, cure)


class _Builder:
    """Turns the stream of parse events into blocks and lists."""

    def __init__(self) -> None:
        self.root: Any = None
        self.troubles: list[Trouble] = []
        self._open: list[Block | Items] = []
        self._keys: list[tuple[str, int] | None] = []
        self._documents = 0

    def take(self, event: Any) -> None:
        line = event.start_mark.line + 1
        if isinstance(event, yaml.DocumentStartEvent):
            self._documents += 1
            if self._documents > 1:
                raise _RefusedError(
                    line, "the file holds two documents", "Keep one study in one file."
                )
        elif isinstance(event, yaml.AliasEvent) or getattr(event, "anchor", None):
            raise _RefusedError(
                line,
                "the line uses a YAML anchor or alias (& or *)",
                "Write the value out, or put the text between quotation marks.",
            )
        elif isinstance(event, yaml.ScalarEvent):
            self._scalar(event, line)
        elif isinstance(event, yaml.MappingStartEvent):
            self._begin(Block(self._place_line(line), self._path()), line)
        elif isinstance(event, yaml.SequenceStartEvent):
            self._begin(Items(self._place_line(line), self._path()), line)
        elif isinstance(event, (yaml.MappingEndEvent, yaml.SequenceEndEvent)):
            self._open.pop()
            self._keys.pop()

    def _path(self) -> str:
        if not self._open:
            return ""
        parent = self._open[-1]
        key = self._keys[-1]
        step = str(len(parent)) if isinstance(parent, Items) else (key[0] if key else "?")
        return f"{parent.path}.{step}" if parent.path else step

    def _place_line(self, line: int) -> int:
        key = self._keys[-1] if self._keys else None
        return key[1] if key else line

    def _begin(self, node: Block | Items, line: int) -> None:
        if len(self._open) >= MAX_DEPTH:
            raise _RefusedError(line, "the file is nested too deeply", "Check the indentation.")
        if self._open and isinstance(self._open[-1], Block) and self._keys[-1] is None:
            raise _RefusedError(line, "a key must be a plain word", "Write 'key: value'.")
        self._put(node, line)
        self._open.append(node)
        self._keys.append(None)

    def _scalar(self, event: Any, line: int) -> None:
        if self._open and isinstance(self._open[-1], Block) and self._keys[-1] is None:
            block, key = self._open[-1], str(event.value)
            if key in block.key_lines:
                self.troubles.append(
                    Trouble(
                        line,
                        f"'{key}' stands twice, on lines {block.key_lines[key]} and {line}",
                        "Keep one of the two.",
                    )
                )
            block.key_lines.setdefault(key, line)
            self._keys[-1] = (key, line)
            return
        plain = event.style in (None, "") and event.implicit[0]
        self._put(_resolve(event.value, line) if plain else event.value, line)

    def _put(self, value: Any, line: int) -> None:
        if not self._open:
            self.root = value
            return
        parent = self._open[-1]
        if isinstance(parent, Items):
            parent.append(value)
            parent.item_lines.append(line)
            return
        key = self._keys[-1]
        if key is not None:
            parent[key[0]] = value
            self._keys[-1] = None


def _resolve(written: str, line: int) -> Any:
    """Give a plain scalar its value under the core schema."""
    if _NULL.fullmatch(written):
        return None
    if _TRUE.fullmatch(written):
        return True
    if _FALSE.fullmatch(written):
        return False
    if _INTEGER.fullmatch(written):
        if len(written.lstrip("+-").lstrip("0")) > MAX_DIGITS:
            raise _RefusedError(line, "the number is too large", "Check it for a slip of the key.")
        whole = Whole(written, 0) if written[:2] in ("0o", "0x") else Whole(written)
        whole.written = written
        return whole
    if _FLOAT.fullmatch(written):
        decimal = Decimal(written)
        if not math.isfinite(decimal):
            raise _RefusedError(line, "the number is too large", "Check it for a slip of the key.")
        decimal.written = written
        return decimal
    return written
