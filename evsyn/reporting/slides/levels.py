"""One colour for each level on all slides, and one for all studies together."""

from collections.abc import Mapping

from evsyn.cells.levels import level_names
from evsyn.extraction.plan import Plan
from evsyn.figures.palette import BANDS
from evsyn.terms import UNPLACED

#: Places in the palette: all studies together, and levels of what is mixed or not stated.
WHOLE, GATHERED = len(BANDS) - 1, len(BANDS) - 2


def level_hues(plan: Plan, stratum: str | None) -> Mapping[str, int]:
    """Return the place in the palette of each level of a stratum, by its words in small letters.

    Parameters
    ----------
    plan : Plan
        The plan.
    stratum : str or None
        A stratum of it; ``None`` for all studies alone.

    Returns
    -------
    mapping of str to int
        Named levels in the plan's order; they repeat where there are more of them than colours.
    """
    if stratum is None or stratum not in plan.strata:
        return {}
    words = level_names(plan.strata[stratum])
    named = [level for level in words if level != UNPLACED]
    hues = {words[level].lower(): i % GATHERED for i, level in enumerate(named)}
    return {**hues, words[UNPLACED].lower(): GATHERED}


def hue_of(hues: Mapping[str, int], title: str) -> int:
    """Return the place in the palette of what a title names; of no level, that of the whole."""
    return hues.get(title.lower(), WHOLE)
