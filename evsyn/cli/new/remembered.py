"""The file that keeps the answers about an unfinished paper or plan."""

import json
from collections.abc import Sequence
from pathlib import Path

from evsyn.cli.options import refuse

_FORMAT = 1
#: A question and its answer; ``None`` where it is to be asked anew.
Remembered = tuple[str, str | None]


def read_kept(place: Path) -> list[Remembered]:
    """Return the answers a file keeps; none where there is no such file."""
    from evsyn.wording.adding import unreadable

    try:
        held = json.loads(place.read_text(encoding="utf-8"))
        if held["format"] == _FORMAT:
            return [(str(k), None if v is None else str(v)) for k, v in held["answers"]]
    except FileNotFoundError:
        return []
    except (ValueError, KeyError, TypeError):
        pass
    return refuse(unreadable(str(place)))


def write_kept(place: Path, answers: Sequence[Remembered]) -> None:
    """Keep answers, in place of those kept before."""
    from evsyn.reporting.files import write_whole

    held = {"format": _FORMAT, "answers": answers}
    write_whole(place, json.dumps(held, ensure_ascii=False, indent=1) + "\n")


def put_away(place: Path) -> Path | None:
    """Move what is kept out of the way, and return where it is; ``None`` where nothing is kept."""
    if not place.exists():
        return None
    return place.replace(place.with_name(f"{place.stem}-put-away{place.suffix}"))
