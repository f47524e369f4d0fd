"""Turn what a record refuses into findings a clinician can act on."""

from collections.abc import Iterator, Sequence
from difflib import get_close_matches
from typing import Any

from pydantic import BaseModel, ValidationError

from evsyn.extraction.yaml_text import Block, Items
from evsyn.terms import Finding, Severity, Source

RULE = "readable"

_SIDES = {
    "greater_than_equal": "at least",
    "greater_than": "above",
    "less_than_equal": "at most",
    "less_than": "below",
}
_KINDS = {
    "string_type": "must be a piece of text, and is {}",
    "float_type": "must be a number, and is {}",
    "dict_type": "must be a group of 'key: value' lines, and is {}",
    "model_type": "must be a group of 'key: value' lines, and is {}",
    "model_attributes_type": "must be a group of 'key: value' lines, and is {}",
}


def nearest(word: str, known: Sequence[str]) -> str:
    """Return a sentence that offers the nearest known word, or lists all of them."""
    lowered = {name.lower(): name for name in known}
    close = get_close_matches(word.lower(), lowered, n=1, cutoff=0.6)
    if close:
        return f"Did you mean '{lowered[close[0]]}'?"
    listed = ", ".join(known) if known else "none are declared"
    return f"Known words: {listed}."


def refusals(
    error: ValidationError, root: Block, file: str, model: type[BaseModel]
) -> Iterator[Finding]:
    """Yield one fault for each thing a record refused.

    Parameters
    ----------
    error : pydantic.ValidationError
        What the record refused, all at once.
    root : Block
        The file as read, from which lines are taken.
    file : str
        Path of the file relative to the review folder.
    model : type
        The record, whose field descriptions say what was wanted.
    """
    for item in error.errors(include_url=False):
        missing = item["type"] == "missing"
        steps, line, parent, key = _locate(item["loc"], root, missing=missing)
        message, cure = _sentence(item, key, _descriptions(model, parent))
        path = ".".join(steps)
        yield Finding(RULE, Severity.FAULT, Source(file, line, path), message, cure)


def _locate(
    loc: tuple[int | str, ...], root: Block, *, missing: bool
) -> tuple[list[str], int, Any, str]:
    """Follow an error's location down the file.

    Tags of unions, and the mark of a refused key, are no keys of the file and are passed over.
    """
    node: Any = root
    parent: Any = root
    line = root.line or 1
    steps: list[str] = []
    last = len(loc) - 1
    for position, part in enumerate(loc):
        if isinstance(node, Block) and part in node:
            parent, line, node = node, node.key_lines[str(part)], node[str(part)]
            steps.append(str(part))
        elif isinstance(node, Items) and isinstance(part, int) and part < len(node):
            parent, line = node, node.item_lines[part]
            node = node[part]
            steps.append(str(part))
        elif missing and isinstance(node, Block) and position == last:
            steps.append(str(part))
            parent = node
    return steps, line, parent, steps[-1] if steps else ""


def _descriptions(model: type[BaseModel], parent: Any) -> dict[str, str]:
    """Return name and description of the fields of the record that ``parent`` was meant to be.

    Of all records below ``model`` it is the one that shares most keys with what was written.
    """
    written = set(parent) if isinstance(parent, Block) else set()

    def shared(record: type[BaseModel]) -> int:
        return len(written & set(_names(record)))

    return _names(max(_records(model), key=shared))


def _records(model: type[BaseModel]) -> list[type[BaseModel]]:
    found: list[type[BaseModel]] = []
    waiting: list[Any] = [model]
    while waiting:
        current = waiting.pop()
        if isinstance(current, type) and issubclass(current, BaseModel):
            if current not in found:
                found.append(current)
                waiting.extend(field.annotation for field in current.model_fields.values())
        else:
            waiting.extend(getattr(current, "__args__", ()))
    return found


def _names(record: type[BaseModel]) -> dict[str, str]:
    return {
        field.alias or name: field.description or "" for name, field in record.model_fields.items()
    }


def _sentence(item: Any, key: str, described: dict[str, str]) -> tuple[str, str]:
    kind, given = item["type"], item["input"]
    was = shown(given)
    wanted = described.get(key, "")
    cure = f"Give {wanted}." if wanted else "See the field reference."
    if key.isdigit():
        key = f"item {int(key) + 1}"
    if kind == "missing":
        return f"'{key}' is missing", cure
    if kind == "extra_forbidden":
        return f"'{key}' is not a field here", nearest(key, sorted(described))
    if kind in ("literal_error", "enum"):
        allowed = str(item["ctx"]["expected"]).replace("'", "").replace(" or ", ", ").split(", ")
        return f"'{key}' is {was}, which is not a known word", nearest(str(given), allowed)
    if kind == "string_pattern_mismatch":
        said = was if item["loc"][-1] == "[key]" else f"'{key}' is {was}, which"
        return f"{said} is not a name", "A name has letters, digits, '_' and '-', and no spaces."
    if kind.startswith("int_"):
        return f"'{key}' must be a whole number, and is {was}", f"{cure} No quotes, no decimals."
    if kind == "bool_type":
        return f"'{key}' must be true or false, and is {was}", "Write true or false."
    return f"'{key}' {_complaint(item, was)}", cure


def _complaint(item: Any, was: str) -> str:
    """Say what is wrong with a value of the right place and the wrong kind or size."""
    kind, context = item["type"], item.get("ctx", {})
    if kind in ("greater_than_equal", "greater_than", "less_than", "less_than_equal"):
        side = _SIDES[kind]
        return f"is {was}, and must be {side} {next(iter(context.values())):g}"
    if kind == "value_error":
        return f"is {was}, and must be {context['error']}"
    if kind in ("too_short", "too_long") and isinstance(item["input"], str):
        return "is empty" if kind == "too_short" else "is too long"
    if kind == "too_short" and isinstance(item["input"], dict):
        return "must hold at least one 'key: value' line"
    if kind in ("list_type", "too_short"):
        least = context.get("min_length", 1)
        return f"must be a list with at least {least} '- ' item{'' if least == 1 else 's'}"
    return _KINDS.get(kind, "cannot be read, and is {}").format(was)


def shown(given: Any) -> str:
    """Return a value as it was written, for a sentence."""
    if given is None:
        return "empty"
    if isinstance(given, dict):
        return "a group of fields"
    if isinstance(given, list):
        return "a list"
    written = str(getattr(given, "written", given))
    if isinstance(given, bool):
        written = written.lower()
    return f"'{written}'" if len(written) <= 60 else f"'{written[:60]}...'"
