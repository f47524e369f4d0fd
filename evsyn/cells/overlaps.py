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
    pooled: list[str] = []
    lost: dict[str, str] = {}
    waiting = [cell.study for cell in cells]
    while waiting:
        # A circle of overlaps has no study without a rival ahead of it; its first is kept.
        free = [name for name in waiting if not any(r in waiting for r in rivals.get(name, []))]
        name = (free or waiting)[0]
        waiting.remove(name)
        ahead = [rival for rival in rivals.get(name, []) if rival in pooled]
        if ahead:
            lost[name] = ahead[0]
            continue
        pooled.append(name)
        for other in [other for other in waiting if name in rivals.get(other, [])]:
            waiting.remove(other)
            lost[other] = name
    return lost


def _rivals(review: Review, rows: dict[str, Cell]) -> dict[str, list[str]]:
    """Return, for each study, those that are kept rather than it; a pair's first word holds."""
    found: dict[str, list[str]] = {}
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
            found.setdefault(lost.study, []).append(keep)
    return found
