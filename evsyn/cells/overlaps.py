"""Keep studies apart that certainly share patients: one of them enters a pool."""

from evsyn.cells.cell import Cell
from evsyn.extraction.review import Review


def winners(review: Review, cells: list[Cell]) -> dict[str, str]:
    """Return, for each study that gives way, the pooled study it shares patients with.

    Of two studies that certainly share patients the one named in the extract is kept, else the
    one with the larger total, else the one that declares the overlap. A study gives way only to
    one that is itself pooled.

    Parameters
    ----------
    review : Review
        The review, whose extracts declare the overlaps.
    cells : list of Cell
        The rows of one pool before any is taken out.
    """
    rivals = _rivals(review, {cell.study: cell for cell in cells})
    lost: dict[str, str] = {}
    waiting = [cell.study for cell in cells]
    while waiting:
        # In a circle of overlaps every study has a rival ahead of it; its first is kept.
        free = [name for name in waiting if not rivals.get(name, set()) & set(waiting)]
        kept = (free or waiting)[0]
        waiting.remove(kept)
        for name in list(waiting):
            if kept in rivals.get(name, set()) or name in rivals.get(kept, set()):
                waiting.remove(name)
                lost[name] = kept
    return lost


def _rivals(review: Review, rows: dict[str, Cell]) -> dict[str, set[str]]:
    """Return, for each study, those that are kept rather than it; a pair's first word holds."""
    found: dict[str, set[str]] = {}
    settled: set[frozenset[str]] = set()
    for study in review.studies:
        for overlap in study.overlaps:
            pair = frozenset((study.study, overlap.study))
            if overlap.kind != "certain" or pair in settled or not pair <= rows.keys():
                continue
            settled.add(pair)
            one, other = rows[study.study], rows[overlap.study]
            keep = overlap.keep or (one if one.total >= other.total else other).study
            lost = other if keep == one.study else one
            found.setdefault(lost.study, set()).add(keep)
    return found
