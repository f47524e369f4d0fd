"""What became of products since they were made, in words."""

from collections.abc import Sequence

STATES = {
    "still_true": "still true",
    "inputs_changed": "inputs changed",
    "input_missing": "an input is missing",
    "version_changed": "version changed",
    "changed_by_hand": "changed since it was written",
    "product_missing": "no longer there",
}

NO_MANIFEST = "holds no manifest.json, so nothing can be said of what is in it."

#: No more changed inputs than this are named; the fields for programs name all.
MOST_NAMED = 5

DEMO_MANIFEST = "What these were made from; evsyn stale {folder} says whether that still holds."

OUTSIDE = (
    "The unit's own file is not recorded in what goes outside, so a change of it cannot be seen."
)


def stale_sentence(name: str, states: Sequence[str], which: Sequence[str], command: str) -> str:
    """Say of one product whether it is still true, and how to make it again.

    Parameters
    ----------
    name : str
        The product.
    states : sequence of str
        What holds of it.
    which : sequence of str
        What changed.
    command : str
        The command that made it.
    """
    said = f"{name}: {', '.join(STATES[state] for state in states)}"
    if which:
        more = [f"and {len(which) - MOST_NAMED} more"] if len(which) > MOST_NAMED else []
        said += f" ({'; '.join([*which[:MOST_NAMED], *more])})"
    if list(states) == ["still_true"]:
        return f"{said}."
    return f"{said}. Made by: {command}"
