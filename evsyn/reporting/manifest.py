"""What a folder of products was made from: hashes of inputs and products, versions, command.

An entry for outside the unit holds nothing of the unit's file: with few possible files, a hash
could be matched.
"""

import hashlib
import json
import os
import platform
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from importlib.metadata import version
from pathlib import Path
from typing import Any

from evsyn.extraction.load import PLAN_FILE, CheckedUnit
from evsyn.extraction.review import Review
from evsyn.reporting.installed import installed_name
from evsyn.reporting.json_text import json_text
from evsyn.terms import Audience

MANIFEST = "manifest.json"

#: Libraries whose version can move a number.
COMPUTING = ("numpy", "scipy")


@dataclass(frozen=True, slots=True)
class Product:
    """One file that was made.

    Parameters
    ----------
    name : str
        Its name in the folder.
    sha256 : str
        Hash of it.
    inputs : dict
        Hash of each file it was made from, by its path relative to the folder.
    plan : str
        Fingerprint of the plan.
    versions : dict
        Versions of evsyn, Python and the libraries that compute.
    command : str
        The command that made it.
    audience : str or None
        ``inside`` or ``outside``, where it holds a unit's figures.
    invented : bool
        Whether anything in it is made up.
    """

    name: str
    sha256: str
    inputs: dict[str, str]
    plan: str
    versions: dict[str, str]
    command: str
    audience: str | None
    invented: bool

    @property
    def origin(self) -> dict[str, Any]:
        """What it was made from and how, as plain data: one for all products of a run."""
        return {
            "command": self.command,
            "for": self.audience,
            "invented": self.invented,
            "plan": self.plan,
            "versions": self.versions,
            "inputs": self.inputs,
        }


def products_made(
    folder: Path,
    contents: Mapping[str, bytes],
    review: Review,
    *,
    command: str,
    units: Iterable[tuple[Path, CheckedUnit]] = (),
    audience: Audience | None = None,
) -> tuple[Product, ...]:
    """Return the entries of products made from a review, and perhaps from units.

    Parameters
    ----------
    folder : pathlib.Path
        The folder they are written into.
    contents : mapping of str to bytes
        Each product by its name.
    review : Review
        The review.
    command : str
        The command, without the names of unit files where it is for outside.
    units : iterable of (pathlib.Path, CheckedUnit)
        Unit files and what was read from them.
    audience : Audience, optional
        Who will see the unit's figures.
    """
    held = list(units)
    files = review_files(review)
    if audience is not Audience.OUTSIDE:
        files += [file for path, checked in held for file in unit_files(path, checked)]
    inputs = {_relative(file, folder): hash_of(file.read_bytes()) for file in files}
    invented = review.invented or any(checked.unit.invented for _, checked in held)
    plan, found = hash_of((review.folder / PLAN_FILE).read_bytes()), versions()
    return tuple(
        Product(
            name=name,
            sha256=hash_of(content),
            inputs=inputs,
            plan=plan,
            versions=found,
            command=command,
            audience=None if audience is None else str(audience),
            invented=invented,
        )
        for name, content in sorted(contents.items())
    )


def manifest_text(folder: Path, made: Iterable[Product]) -> str:
    """Return the folder's manifest with these entries; those of other products stay.

    Raises
    ------
    ValueError
        If the folder's manifest is not one, or products for inside and for outside would stand in
        one folder: its manifest goes where they go.
    """
    entries = {product.name: product for product in (*read_manifest(folder), *made)}
    if {str(one) for one in Audience} <= {str(entry.audience) for entry in entries.values()}:
        raise ValueError(
            f"{folder} would hold products for inside and for outside the unit, and its manifest "
            "goes where they go. Give each a folder of its own"
        )
    runs: list[dict[str, Any]] = []
    for name in sorted(entries):
        origin = entries[name].origin
        held = next((run for run in runs if origin.items() <= run.items()), None)
        if held is None:
            held = origin | {"products": {}}
            runs.append(held)
        held["products"][name] = entries[name].sha256
    return json_text({"runs": runs})


def read_manifest(folder: Path) -> tuple[Product, ...]:
    """Return the entries of a folder's manifest; none where there is no manifest.

    Raises
    ------
    ValueError
        If the manifest is not one.
    """
    path = folder / MANIFEST
    if not path.is_file():
        return ()
    try:
        fields = json.loads(path.read_text(encoding="utf-8"))
        return tuple(
            _product(str(name), str(sha256), run)
            for run in fields["runs"]
            for name, sha256 in run["products"].items()
        )
    except (ValueError, KeyError, TypeError, AttributeError) as error:
        raise ValueError(
            f"{path} is not a manifest that this version of evsyn wrote. Delete it, and make the "
            "products again"
        ) from error


def _product(name: str, sha256: str, run: Mapping[str, Any]) -> Product:
    return Product(
        name=name,
        sha256=sha256,
        inputs={str(k): str(v) for k, v in run["inputs"].items()},
        plan=str(run["plan"]),
        versions={str(k): str(v) for k, v in run["versions"].items()},
        command=str(run["command"]),
        audience=None if run["for"] is None else str(run["for"]),
        invented=bool(run["invented"]),
    )


def review_files(review: Review) -> list[Path]:
    """Return the files a review was read from: its plan and its extracts."""
    names = dict.fromkeys([PLAN_FILE, *(study.source().file for study in review.studies)])
    return [review.folder / name for name in names]


def unit_files(path: Path, checked: CheckedUnit) -> list[Path]:
    """Return the files a unit's figures were read from: its file, and its case log."""
    log = checked.unit.case_log
    return [path] if log is None else [path, path.parent / log.file]


def versions() -> dict[str, str]:
    """Return the versions that can move a number."""
    found = {"evsyn": version("evsyn"), "python": platform.python_version()}
    return found | {name: version(name) for name in COMPUTING}


def hash_of(content: bytes) -> str:
    """Return the SHA-256 of some bytes in hexadecimal."""
    return hashlib.sha256(content).hexdigest()


def _relative(file: Path, folder: Path) -> str:
    """Name a file so that it can be found again and no place of this machine is written down.

    As seen from the folder where both lie below the place the command was run in; else as seen
    from that place; else, of the demo review, as what comes with evsyn; else by its name alone.
    """
    here, place, made = Path.cwd().resolve(), file.resolve(), folder.resolve()
    if not place.is_relative_to(here):
        return installed_name(file) or file.name
    if made.is_relative_to(here):
        return Path(os.path.relpath(place, made)).as_posix()
    return place.relative_to(here).as_posix()
