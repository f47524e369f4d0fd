"""Parts of a plan: those offered to begin with, and those written in one line."""

from pathlib import Path
from typing import Any

from evsyn.extraction.starting import answers
from evsyn.extraction.yaml_text import Block, parse_bytes

Part = dict[str, Any]
#: Words that what a stratum asks may begin with; before another an article is missing.
_BEGINS = frozenset({
    "what", "which", "who", "whose", "when", "where", "whether", "why", "how", "the", "a", "an",
    "by", "from", "at", "in", "on", "with",
})  # fmt: skip


def offered() -> Part:
    """Return denominators, windows, flow and strata that a new plan may take or leave."""
    root = parse_bytes((Path(__file__).parent / "offered.yaml").read_bytes()).root
    return {} if root is None else {key: _plain(value) for key, value in root.items()}


def window(written: str) -> tuple[str, Part]:
    """Return name and window of ``30_days=within 30 days; 30``.

    After the words stand its days, or ``until`` and the event that ends it, or nothing where it is
    open.
    """
    key, words = answers.pair(written)
    label, _, end = (part.strip() for part in words.partition(";"))
    made: Part = {"label": answers.text(label)}
    if end.startswith("until "):
        made["ends"] = answers.text(end.removeprefix("until "))
    elif end:
        made["days"] = answers.number(0)(end.removesuffix("days").removesuffix("day"))
    return answers.name(key), made


def stratum(written: str) -> tuple[str, Part]:
    """Return name and stratum of ``intent=Intent: its purpose; palliation; bridge=a bridge``.

    A level without words of its own is called by its name. ``era=Era; 2008`` divides by the year
    from which patients were recruited.
    """
    key, words = answers.pair(written)
    head, *parts = answers.listed(words)
    if not parts:
        raise ValueError(f"'{key}' has no levels; write them after semicolons")
    label, _, asks = (part.strip() for part in head.partition(":"))
    if len(parts) == 1 and parts[0].isdigit():
        return answers.name(key), {
            "label": label,
            "cut_year": answers.number(1900, 2100)(parts[0]),
        }
    levels = answers.words_by_name(
        [one if "=" in one else f"{one}={one.replace('_', ' ')}" for one in parts]
    )
    return answers.name(key), {
        "label": label,
        "asks": _asked(asks or f"which {label.lower()}"),
        "levels": levels,
    }


def _asked(words: str) -> str:
    """Return what a stratum asks as it stands after 'the studies state'."""
    return words if words.split()[0].lower() in _BEGINS else f"the {words}"


def outcome(written: str) -> tuple[str, Part]:
    """Return name and outcome of ``leak=Leak; leak; leaks; fewer; attempted, placed; 30_days``."""
    key, words = answers.pair(written)
    parts = [part.strip() for part in words.split(";")]
    if len(parts) not in (5, 6):
        raise ValueError(
            f"'{words}' has not the form 'LABEL; ONE; SEVERAL; fewer or more; DENOMINATORS; "
            "WINDOWS'"
        )
    label, one, several, better, bases = parts[:5]
    windows = parts[5] if len(parts) == 6 else ""
    return answers.name(key), {
        "label": answers.text(label),
        "event": answers.text(one),
        "events": answers.text(several),
        "better": answers.among(["fewer", "more"])(better),
        "denominators": bases,
        "windows": windows,
    }


def _plain(value: Any) -> Any:
    if isinstance(value, Block):
        return {key: _plain(one) for key, one in value.items()}
    return [_plain(one) for one in value] if isinstance(value, list) else value
