"""The demo review that comes with evsyn, wherever it is installed."""

from pathlib import Path

import evsyn

#: How a file of it is named where the place itself may not be written down.
_COMES_WITH = "evsyn:demo"


def demo_folder() -> Path | None:
    """Return the demo review of this installation or checkout, or ``None``."""
    package = Path(evsyn.__file__).parent
    places = (package / "studies" / "demo", package.parent / "studies" / "demo")
    return next((place for place in places if place.is_dir()), None)


def installed_name(file: Path) -> str | None:
    """Name a file of the demo review without the place it is installed in.

    Parameters
    ----------
    file : pathlib.Path
        Any file.

    Returns
    -------
    str or None
        As ``evsyn:demo/review.yaml``; ``None`` for a file of another folder.
    """
    folder = demo_folder()
    if folder is None or file.resolve().parent != folder.resolve():
        return None
    return f"{_COMES_WITH}/{file.name}"


def installed_file(name: str) -> Path | None:
    """Return the file that such a name means here; ``None`` for another name."""
    folder, (place, _, file) = demo_folder(), name.partition("/")
    return None if folder is None or place != _COMES_WITH else folder / file
