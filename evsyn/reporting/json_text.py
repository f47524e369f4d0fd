"""JSON for programs: stable, numbered, without values that do not exist."""

import json
from importlib.metadata import version
from typing import Any

JSON_FORMAT = 1


def json_text(fields: dict[str, Any]) -> str:
    """Return fields as JSON, headed by the format's number and the version that wrote it.

    Letters beyond ASCII are escaped, so that no console's alphabet changes what a program reads.

    Raises
    ------
    ValueError
        If a value is not a finite number: what does not exist is ``null``.
    """
    headed = {"json_format": JSON_FORMAT, "evsyn_version": version("evsyn"), **fields}
    return json.dumps(headed, indent=2, allow_nan=False)
