"""Write a file, or several that belong together, whole or not at all."""

import errno
import os
import shutil
import tempfile
from collections.abc import Iterator, Mapping
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
        Path(name).chmod(path.stat().st_mode & 0o777 if path.exists() else 0o644)
        Path(name).replace(path)
    except OSError as error:
        Path(name).unlink(missing_ok=True)
        raise type(error)(error.errno, error.strerror, str(path)) from None
    except BaseException:
        Path(name).unlink(missing_ok=True)
        raise


class ChangedMeanwhileError(OSError):
    """Raised where a file is no longer what it was when it was read."""


def write_all(files: Mapping[Path, str | bytes], read: Mapping[Path, bytes | None]) -> None:
    """Write several files of the user's own, all of them or none.

    Parameters
    ----------
    files : mapping of pathlib.Path to str or bytes
        What each is to hold; text as UTF-8, line ends as they stand.
    read : mapping of pathlib.Path to bytes or None
        What each held when the change was worked out, ``None`` where it did not exist.

    Raises
    ------
    ChangedMeanwhileError
        If one is no longer as it was read; nothing is written.
    OSError
        If one cannot be written; those already written are put back.
    """
    for path in files:
        if (path.read_bytes() if path.exists() else None) != read[path]:
            raise ChangedMeanwhileError(errno.EBUSY, "it has changed meanwhile", str(path))
    done: list[Path] = []
    try:
        for path, content in files.items():
            write_whole(path, content)
            done.append(path)
    except BaseException:
        for path in done:
            before = read[path]
            if before is None:
                path.unlink(missing_ok=True)
            else:
                write_whole(path, before)
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
