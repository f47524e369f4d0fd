"""Where a row came from, as a name for its shapes and in words."""

import re

from evsyn.terms import Source


def source_id(sources: tuple[Source, ...]) -> str:
    """Return the first source as a name fit for an XML id."""
    if not sources:
        return ""
    return f"source-{re.sub(r'[^A-Za-z0-9_.-]+', '-', sources[0].file)}-line-{sources[0].line}"


def places(sources: tuple[Source, ...]) -> str:
    """Return file, line and place in the paper of each source."""
    return "; ".join(f"{item} ({item.place})" if item.place else str(item) for item in sources)
