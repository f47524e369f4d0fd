"""Write one value so that it is read back as the same value."""

import json
import re

from evsyn.extraction.yaml_text import parse_bytes

WIDTH = 100
#: What may stand without quotation marks: begins with a letter or digit, and holds no sign to
#: which YAML gives a meaning.
_PLAIN = re.compile(r"[^\W_][^\n\r\t:#\[\]{},&*!|>'\"%@`\\]*", re.UNICODE)
#: Letters that YAML takes for the end of a line, or does not take at all.
_ESCAPES = {"\x7f": "\\x7f", "\x85": "\\N", "\u2028": "\\L", "\u2029": "\\P"}
_DATE = re.compile(r"[0-9]{4}-[0-9]{2}(-[0-9]{2})?")


def scalar(value: object) -> str:
    """Return a text, number or truth value as YAML, on one line.

    Parameters
    ----------
    value : object
        ``str``, ``int``, ``float`` or ``bool``.

    Raises
    ------
    TypeError
        If it is none of these.
    """
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, (int, float)):
        return repr(value)
    if not isinstance(value, str):
        raise TypeError(f"a {type(value).__name__} cannot be written as one value")
    return value if _is_plain(value) else quoted(value)


def quoted(text: str) -> str:
    """Return a text between double quotation marks."""
    return "".join(_ESCAPES.get(letter, letter) for letter in json.dumps(text, ensure_ascii=False))


def folded(value: object, indent: int, used: int) -> str:
    """Return a value, a long text broken over lines.

    Parameters
    ----------
    value : object
        As for :func:`scalar`.
    indent : int
        Spaces before each further line.
    used : int
        Columns taken on the first line.
    """
    text = scalar(value)
    if used + len(text) <= WIDTH or not isinstance(value, str):
        return text
    lines: list[str] = []
    line = used
    for word in re.split(r"(?<=[^ \\]) (?=[^ ])", quoted(value)):
        if lines and line + 1 + len(word) <= WIDTH:
            lines[-1] += f" {word}"
            line += 1 + len(word)
        else:
            lines.append(word)
            line = len(word) + (indent if len(lines) > 1 else used)
    return ("\n" + " " * indent).join(lines)


def _is_plain(text: str) -> bool:
    if _DATE.fullmatch(text):
        return True
    if not _PLAIN.fullmatch(text) or text != text.strip():
        return False
    root = parse_bytes(f"k: {text}\n".encode()).root
    return root is not None and root.get("k") == text
