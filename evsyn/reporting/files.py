"""Write a file, or several that belong together, whole or not at all."""

import errno
import os
import shutil
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
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


@contextmanager
def written_together(folder: Path) -> Iterator[Path]:
    """Yield a folder to write into; its files reach the target once all of them are complete.

    Files of the target that are not written again stay as they are.

    Parameters
    ----------
    folder : pathlib.Path
        The target; made if it is missing.

    Raises
    ------
    OSError
        If the place cannot be written; nothing of the target has then changed.
    """
    try:
        folder.parent.mkdir(parents=True, exist_ok=True)
        if folder.exists() and not folder.is_dir():
            raise FileExistsError(errno.EEXIST, "it is a file, not a folder", str(folder))
        draft = Path(tempfile.mkdtemp(dir=folder.parent, prefix=f".{folder.name}."))
    except OSError as error:
        raise type(error)(error.errno, error.strerror, str(folder)) from None
    try:
        yield draft
        folder.mkdir(exist_ok=True)
        for path in sorted(draft.iterdir()):
            path.replace(folder / path.name)
    finally:
        shutil.rmtree(draft, ignore_errors=True)
