"""Write a file whole or not at all."""

import os
import tempfile
from pathlib import Path


def write_whole(path: Path, content: str | bytes) -> None:
    """Write beside the target, then put it in place in one step.

    Parameters
    ----------
    path : pathlib.Path
        The target; its folder is made if it is missing.
    content : str or bytes
        What to write; text as UTF-8.

    Raises
    ------
    OSError
        If the place cannot be written; the target is then as it was.
    """
    raw = content.encode("utf-8") if isinstance(content, str) else content
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        handle, name = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}.")
    except OSError as error:
        # Name the file that was asked for, not the one beside it.
        raise type(error)(error.errno, error.strerror, str(path)) from None
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(raw)
        Path(name).chmod(0o644)
        Path(name).replace(path)
    except OSError as error:
        Path(name).unlink(missing_ok=True)
        raise type(error)(error.errno, error.strerror, str(path)) from None
    except BaseException:
        Path(name).unlink(missing_ok=True)
        raise
