"""Make the console fit to print on, whatever its alphabet is and whoever's computer it is."""

import codecs
import os
import sys
from pathlib import Path

#: Name of the rule by which a letter that cannot be shown becomes its nearest plain form.
NEAREST = "evsyn.nearest"
#: A console of plain letters goes by this name, since click takes one called "ascii" for a mistake
#: and prints UTF-8 on it.
_ASCII = "evsyn_ascii"


def ready_console() -> None:
    """Let anything be printed and typed.

    What the console's alphabet lacks is printed in its nearest plain form. What is typed where only
    plain letters are known is read as UTF-8, and a letter that cannot be read is marked in its
    place.
    """
    codecs.register_error(NEAREST, _nearest)
    codecs.register(_ascii_codec)
    for stream in (sys.stdout, sys.stderr):
        reconfigure = getattr(stream, "reconfigure", None)
        if reconfigure is None:
            continue
        if codecs.lookup(stream.encoding).name == "ascii":
            reconfigure(encoding=_ASCII, errors=NEAREST)
        else:
            reconfigure(errors=NEAREST)
    reconfigure = getattr(sys.stdin, "reconfigure", None)
    if reconfigure is not None:
        is_plain = codecs.lookup(sys.stdin.encoding).name == "ascii"
        reconfigure(encoding="utf-8" if is_plain else None, errors="replace")


def ready_file_names() -> None:
    """Start again with file names read as UTF-8, where the system has them as plain letters.

    It does so under the locale ``C`` alone. A name beyond plain letters could be opened there, and
    not be written into a page that says where a number comes from.
    """
    plain = codecs.lookup(sys.getfilesystemencoding()).name == "ascii"
    if os.name != "posix" or not plain or os.environ.get("PYTHONUTF8") == "1":
        return
    os.environ.setdefault("PYTHONIOENCODING", sys.stdout.encoding)
    # The variable, and not an option of the interpreter, so that it holds for what this one starts.
    os.environ["PYTHONUTF8"] = "1"
    os.execv(sys.executable, [sys.executable, *sys.orig_argv[1:]])


def _nearest(error: UnicodeError) -> tuple[str, int]:
    from evsyn.wording.plain_letters import plain_text

    if not isinstance(error, UnicodeEncodeError):
        raise error
    lacking = error.object[error.start : error.end]
    # A file name that could not be read as text comes as its bytes, most often those of UTF-8.
    raw = lacking.encode("utf-8", "surrogateescape") if _is_bytes(lacking) else b""
    return plain_text(raw.decode("utf-8", "replace") if raw else lacking), error.end


def _is_bytes(words: str) -> bool:
    return any("\udc80" <= letter <= "\udcff" for letter in words)


def _ascii_codec(name: str) -> codecs.CodecInfo | None:
    if name != _ASCII:
        return None
    plain = codecs.lookup("ascii")
    return codecs.CodecInfo(
        plain.encode,
        plain.decode,
        incrementalencoder=plain.incrementalencoder,
        incrementaldecoder=plain.incrementaldecoder,
        name=_ASCII,
    )


def ready_drawing() -> None:
    """Give the drawing library a folder of its own among the temporary files.

    It keeps a list of typefaces, and would keep it in the user's own folder, which may not exist or
    may not be written to. A folder named by ``MPLCONFIGDIR`` stays as it is.
    """
    if "MPLCONFIGDIR" in os.environ:
        return
    import tempfile

    try:
        folder = Path(tempfile.gettempdir()) / f"evsyn-typefaces-{_user()}"
        if folder.exists() and not _is_own(folder):
            return
    except OSError:
        return
    os.environ["MPLCONFIGDIR"] = str(folder)


def _user() -> str:
    # On Windows each user has his own folder of temporary files.
    return str(os.getuid()) if hasattr(os, "getuid") else "own"


def _is_own(folder: Path) -> bool:
    owned = not hasattr(os, "getuid") or folder.lstat().st_uid == os.getuid()
    return owned and folder.is_dir() and os.access(folder, os.W_OK)
