"""Where the numbers behind a verdict stand."""

from pathlib import Path

from evsyn.claims.held import Held
from evsyn.claims.levels import LevelsFound
from evsyn.claims.unit_levels import OwnLevelsFound
from evsyn.claims.unit_place import OwnPlaceFound
from evsyn.claims.unit_rate import OwnRateFound
from evsyn.claims.weigh import Weighed
from evsyn.extraction.claims import Claim
from evsyn.terms import Source
from evsyn.wording.claims_held import MOST_NAMED


def held_of(weighed: Weighed) -> tuple[Held, ...]:
    """Return the counts of the review behind a verdict."""
    found = weighed.found
    if isinstance(found, LevelsFound):
        return (found.here, found.there)
    held = getattr(found, "held", None)
    return (held,) if isinstance(held, Held) else ()


def own_sources(weighed: Weighed) -> tuple[Source, ...]:
    """Return the places of the unit's counts behind a verdict."""
    found = weighed.found
    if isinstance(found, OwnRateFound | OwnPlaceFound):
        return found.tally.sources
    if isinstance(found, OwnLevelsFound):
        return (*found.first.sources, *found.second.sources)
    return ()


def sources_sentences(weighed: Weighed, folder: Path) -> tuple[str, ...]:
    """Say where each count behind a verdict can be found.

    Parameters
    ----------
    weighed : Weighed
        A weighed claim.
    folder : pathlib.Path
        Folder of the review, as the reader named it.
    """
    told = []
    for held in held_of(weighed):
        if held.table.k:
            told.append(_places(weighed.claim, held, folder))
    own = own_sources(weighed)
    if own:
        told.append(f"The unit's counts: {_lines(own)}.")
    return tuple(told)


def _places(claim: Claim, held: Held, folder: Path) -> str:
    question = held.table.question
    is_whole = claim.window is None and claim.of is None and not question.also
    if is_whole and set(claim.scope) <= set(question.strata):
        return f"Every count with its place: evsyn trace {folder} {question.key}"
    places = [source for cell in held.table.cells for source in cell.sources]
    if len(places) <= MOST_NAMED:
        return f"Counts: {_lines(tuple(places))}."
    return f"The {held.table.k} counts with their places: add --json."


def _lines(sources: tuple[Source, ...]) -> str:
    """Write places file by file, as ``unit.yaml, lines 74 and 119``."""
    told = []
    for file in dict.fromkeys(source.file for source in sources):
        lines = [str(source.line) for source in sources if source.file == file]
        last = f"{', '.join(lines[:-1])} and {lines[-1]}" if len(lines) > 1 else lines[0]
        told.append(f"{file}, line{'s' if len(lines) > 1 else ''} {last}")
    return "; ".join(told)
