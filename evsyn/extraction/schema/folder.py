"""The schemas of a review on disk: ``REVIEW/schema/``."""

import json
from collections.abc import Iterator
from pathlib import Path

from evsyn.extraction.plan import Plan
from evsyn.extraction.schema.known_words import Schema
from evsyn.extraction.schema.schemas import schemas
from evsyn.terms import Finding, Severity, Source

FOLDER = "schema"
RULE = "schema-in-step"
WHY = (
    "An editor underlines by the files in the folder `schema`; after a change of the plan they "
    "must be made again, by `evsyn schema`."
)

_LEADS = "# yaml-language-server: $schema="
_ASKING = f"{_LEADS}{FOLDER}/"


def first_line(kind: str, review: str = ".") -> str:
    """Return the line by which an editor finds the schema of a file.

    Parameters
    ----------
    kind : str
        Kind of file, as ``study``.
    review : str
        Way from the file to the folder of the review; most files lie in it.
    """
    place = FOLDER if review == "." else f"{review}/{FOLDER}"
    return f"{_LEADS}{place}/{kind}.json"


def schema_texts(plan: Plan | None = None) -> dict[str, str]:
    """Return the text of each schema file by its name, as ``study.json``."""
    return {f"{kind}.json": _text(schema) for kind, schema in schemas(plan).items()}


def schema_notes(folder: Path, plan: Plan) -> Iterator[Finding]:
    """Yield a note where the schemas of a review's folder are not those of its plan.

    Parameters
    ----------
    folder : pathlib.Path
        Folder of the review; where it holds no schemas, and no file asks for one, there is nothing
        to say.
    plan : Plan
        Its plan.
    """
    place = folder / FOLDER
    if not place.is_dir():
        asking = next((path.name for path in sorted(folder.glob("*.yaml")) if _asks(path)), None)
        if asking is not None:
            yield _note(f"{asking} names a schema in its first line, and there is none", folder)
        return
    behind = [name for name, text in schema_texts(plan).items() if _held(place / name) != text]
    if behind:
        said = f"not made from the plan as it stands: {', '.join(behind)}; editors go by them"
        yield _note(said, folder)


def _note(message: str, folder: Path) -> Finding:
    cure = f"Make them {'again' if (folder / FOLDER).is_dir() else 'once'}: evsyn schema "
    return Finding(RULE, Severity.NOTE, Source(FOLDER, 0), message, cure + folder.as_posix())


def _asks(path: Path) -> bool:
    """Return whether the first line of a file leads to a schema beside it."""
    try:
        with path.open(encoding="utf-8") as file:
            return file.readline().startswith(_ASKING)
    except (OSError, UnicodeDecodeError):
        return False


def _held(path: Path) -> str | None:
    try:
        return path.read_text(encoding="utf-8")
    except (OSError, UnicodeDecodeError):
        return None


def _text(schema: Schema) -> str:
    return json.dumps(schema, indent=1, ensure_ascii=False) + "\n"
