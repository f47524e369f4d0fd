"""The page's script: inline, without libraries, and the only one its own policy lets run."""

import base64
import hashlib
import json
from functools import cache
from pathlib import Path
from typing import Any

from evsyn.reporting.page.markup import Html, shown

_FILES = ("placing.js", "saying.js", "acting.js")

#: Letters that could end a script element, or a line of one.
_HELD = {"<": "\\u003c", ">": "\\u003e", "&": "\\u0026", "\u2028": "\\u2028", "\u2029": "\\u2029"}


@cache
def script_text() -> str:
    """Return the script."""
    folder = Path(__file__).parent
    return "\n" + "".join((folder / name).read_text(encoding="utf-8") for name in _FILES)


def policy() -> str:
    """Return the policy by which the page fetches nothing and runs no other script."""
    digest = base64.b64encode(hashlib.sha256(script_text().encode()).digest()).decode()
    return (
        "default-src 'none'; style-src 'unsafe-inline'; form-action 'none'; base-uri 'none'; "
        f"script-src 'sha256-{digest}'"
    )


def script_element() -> Html:
    """Return the script as an element."""
    return Html(f"<script>{script_text()}</script>")


def data_element(name: str, fields: dict[str, Any]) -> Html:
    """Return data for the script; whatever it holds, it cannot end its own element.

    Parameters
    ----------
    name : str
        Id of the element.
    fields : dict
        Plain data.
    """
    text = json.dumps(fields, ensure_ascii=False, separators=(",", ":"), allow_nan=False)
    held = "".join(_HELD.get(letter, letter) for letter in shown(text))
    return Html(f'<script type="application/json" id="{name}">{held}</script>')
