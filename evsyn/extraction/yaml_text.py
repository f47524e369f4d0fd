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
_TOO_DEEP = ("the file is nested too deeply", "Check the indentation.")

_NULL = re.compile(r"~|null|Null|NULL|")
_TRUE = re.compile(r"true|True|TRUE")
_FALSE = re.compile(r"false|False|FALSE")
_INTEGER = re.compile(r"[-+]?[0-9]+|0o[0-7]+|0x[0-9a-fA-F]+")
_FLOAT = re.compile(r"[-+]?(\.[0-9]+|[0-9]+(\.[0-9]*)?)([eE][-+]?[0-9]+)?")
_LINE_END = re.compile(r"\r\n|\r|\n")
#: What no figure or page can print: control characters, byte-order marks, code points of no use.
HIDDEN = re.compile(
    "[^\t\n\r\x20-\x7e\x85\xa0-\ud7ff\ue000-\ufefe\uff00-\ufffd\U00010000-\U0010ffff]"
)


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
        return _unreadable(
            _line_of(raw[: error.start].decode("latin-1")),
            "the file is not written in UTF-8",
            "Save it again with the encoding UTF-8 (in most editors: Save as, Encoding).",
        )
    if not text.strip():
        return _unreadable(1, "the file is empty", "Write the extract, or delete the file.")
    hidden = HIDDEN.search(text)
    if hidden is not None:
        line = _line_of(text[: hidden.start()])
        return Parsed(None, (_hidden_trouble(line, hidden.group()),))
    builder = _Builder()
    try:
        for event in yaml.parse(text, Loader=_Loader):
            builder.take(event)
    except _RefusedError as refusal:
        return Parsed(None, (*builder.troubles, refusal.trouble))
    except yaml.YAMLError as error:
        return Parsed(None, (*builder.troubles, _syntax_trouble(error, text)))
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


def _line_of(before: str) -> int:
    return len(_LINE_END.findall(before)) + 1


def _hidden_trouble(line: int, character: str) -> Trouble:
    return Trouble(
        line,
        f"the line holds a hidden character that cannot be printed (U+{ord(character):04X})",
        "Delete it; typing the line anew is the surest way.",
    )


def _syntax_trouble(error: yaml.YAMLError, text: str) -> Trouble:
    mark = getattr(error, "problem_mark", None) or getattr(error, "context_mark", None)
    problem = str(getattr(error, "problem", None) or "unreadable")
    lines = _LINE_END.split(text.rstrip())
    line = min(mark.line + 1, len(lines)) if mark is not None else 1
    written = lines[line - 1]
    if "\t" in written[: len(written) - len(written.lstrip())] or "\\t" in problem:
        return Trouble(line, "the line is indented with a tab", "Use spaces instead of the tab.")
    if "nesting depth" in problem:
        return Trouble(line, *_TOO_DEEP)
    if "mapping values are not allowed" in problem:
        return Trouble(
            line,
            "there is a second colon in this line",
            "Put the text after the first colon between quotation marks.",
        )
    return Trouble(
        line,
        f"the line does not fit YAML ({problem})",
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
        elif getattr(event, "tag", None):
            raise _RefusedError(
                line,
                "the line uses a YAML tag (a word that begins with !)",
                "Put the text between quotation marks.",
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
            raise _RefusedError(line, *_TOO_DEEP)
        if self._open and isinstance(self._open[-1], Block) and self._keys[-1] is None:
            raise _RefusedError(line, "a key must be a plain word", "Write 'key: value'.")
        self._put(node, line)
        self._open.append(node)
        self._keys.append(None)

    def _scalar(self, event: Any, line: int) -> None:
        hidden = HIDDEN.search(event.value)
        if hidden is not None:
            self.troubles.append(_hidden_trouble(line, hidden.group()))
        if self._open and isinstance(self._open[-1], Block) and self._keys[-1] is None:
            block, key = self._open[-1], str(event.value)
            if key in block.key_lines:
                first = block.key_lines[key]
                where = f"line {line}" if first == line else f"lines {first} and {line}"
                message = f"'{key}' stands twice, on {where}"
                self.troubles.append(Trouble(line, message, "Keep one of the two."))
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
        digits = written.lstrip("+-").lstrip("0") or "0"
        if len(digits) > MAX_DIGITS:
            raise _RefusedError(line, "the number is too large", "Check it for a slip of the key.")
        if digits[0] in "ox":
            whole = Whole(written, 0)
        else:
            whole = Whole(f"-{digits}" if written[0] == "-" else digits)
        whole.written = written
        return whole
    if _FLOAT.fullmatch(written):
        decimal = Decimal(written)
        if not math.isfinite(decimal):
            raise _RefusedError(line, "the number is too large", "Check it for a slip of the key.")
        decimal.written = written
        return decimal
    return written
