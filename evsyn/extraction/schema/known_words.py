"""Words that may stand in one place of a file, with what they mean."""

from collections.abc import Mapping
from typing import Any

from evsyn.extraction.yaml_text import Decimal, Whole, parse_bytes

Schema = dict[str, Any]


def one_of(field: Schema, words: Mapping[str, str], *, needed: bool = True) -> Schema:
    """Return the schema of a field that holds one of some words.

    Parameters
    ----------
    field : dict
        The schema of the field in any review; its description and default are kept.
    words : mapping
        Each word and its meaning.
    needed : bool
        Whether the field may not be left empty.
    """
    listed: list[Any] = []
    meanings: list[str] = []
    for word, meaning in words.items():
        for written in (word, *_numbers(word)):
            listed.append(written)
            meanings.append(meaning)
    if not needed:
        listed.append(None)
        meanings.append("nothing")
    kept = {key: field[key] for key in ("description", "default") if key in field}
    told = "; ".join(f"{word}: {meaning}" for word, meaning in words.items())
    kept["description"] = ". ".join(part for part in (kept.get("description", ""), told) if part)
    return {"enum": listed, "enumDescriptions": meanings, **kept}


def by_name(field: Schema, below: Mapping[str, Schema]) -> Schema:
    """Return the schema of a group that may hold these keys alone, each with its own schema."""
    kept = {key: field[key] for key in ("description", "default", "minProperties") if key in field}
    return {
        "type": "object",
        "properties": dict(below),
        "additionalProperties": False,
        **kept,
    }


def list_of(field: Schema, words: Mapping[str, str]) -> Schema:
    """Return the schema of a list of some words."""
    return {**field, "items": one_of({}, words)}


def _numbers(word: str) -> list[int | float]:
    """Return the number that an editor takes a word for, as 2005, if no quotation marks stand."""
    read = parse_bytes(f"word: {word}".encode()).root
    plain = read and read["word"]
    if isinstance(plain, Whole):
        return [int(plain)]
    return [float(plain)] if isinstance(plain, Decimal) else []
