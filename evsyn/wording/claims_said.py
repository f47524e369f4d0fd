"""What a weigher's finding becomes in words."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Said:
    """A finding in words.

    Parameters
    ----------
    sentences : tuple of str
        What the verdict rests on, the decisive sentence first.
    instead : str
        What can be said honestly.
    pool : tuple of str
        The pool behind it, which several claims may share.
    scope : str
        What the verdict is about, where it is narrower than the sentence, as ``for the typical
        rate``.
    """

    sentences: tuple[str, ...]
    instead: str
    pool: tuple[str, ...] = ()
    scope: str = ""
