"""Whether what was made is still true of what it was made from."""

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from pathlib import Path

from evsyn.reporting.installed import installed_file
from evsyn.reporting.manifest import MANIFEST, Product, hash_of, read_manifest, versions


class State(StrEnum):
    """What became of a product since it was made."""

    TRUE = "still_true"
    INPUTS = "inputs_changed"
    MISSING = "input_missing"
    VERSION = "version_changed"
    EDITED = "changed_by_hand"
    GONE = "product_missing"


@dataclass(frozen=True, slots=True)
class Staleness:
    """One product, and why it may no longer be true.

    Parameters
    ----------
    product : Product
        Its entry.
    states : tuple of State
        All that holds; ``TRUE`` alone where nothing changed.
    which : tuple of str
        The inputs that changed or are missing, or the versions that did.
    """

    product: Product
    states: tuple[State, ...]
    which: tuple[str, ...]

    @property
    def is_true(self) -> bool:
        """Whether it still says what its inputs give."""
        return self.states == (State.TRUE,)


def manifest_folders(folder: Path) -> tuple[Path, ...]:
    """Return the folders with a manifest: the folder itself, and all below it."""
    return tuple(sorted(path.parent for path in folder.rglob(MANIFEST)))


def staleness(folder: Path) -> tuple[Staleness, ...]:
    """Return what became of each product of a folder.

    Raises
    ------
    ValueError
        If its manifest is not one.
    """
    now = versions()
    products = read_manifest(folder)
    inputs = {name for product in products for name in product.inputs}
    held = {name: _hash(_found(name, folder)) for name in inputs}
    return tuple(_of(product, folder, held, now) for product in products)


def _of(
    product: Product, folder: Path, held: Mapping[str, str | None], now: Mapping[str, str]
) -> Staleness:
    states: list[State] = []
    which: list[str] = []
    changed = [name for name, kept in product.inputs.items() if held[name] != kept]
    missing = [name for name in changed if held[name] is None]
    if len(changed) > len(missing):
        states.append(State.INPUTS)
    if missing:
        states.append(State.MISSING)
    which += changed
    moved = [name for name, kept in product.versions.items() if now.get(name) != kept]
    if moved:
        states.append(State.VERSION)
        which += [f"{name} {product.versions[name]}, now {now.get(name, 'none')}" for name in moved]
    itself = _hash(folder / product.name)
    if itself is None:
        states.append(State.GONE)
    elif itself != product.sha256:
        states.append(State.EDITED)
    return Staleness(product, tuple(states) or (State.TRUE,), tuple(which))


def _found(name: str, folder: Path) -> Path:
    """Return where an input lies, as seen from the folder, from here, or with evsyn itself."""
    seen = folder / name
    return seen if seen.is_file() else installed_file(name) or Path(name)


def _hash(path: Path) -> str | None:
    return hash_of(path.read_bytes()) if path.is_file() else None
