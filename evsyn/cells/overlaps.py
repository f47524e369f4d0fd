"""Keep studies apart that certainly share patients: one of them enters a pool."""

from collections.abc import Callable, Mapping

from evsyn.cells.cell import Cell
from evsyn.cells.levels import precedence
from evsyn.extraction.review import Review

#: A level of each stratum asked about.
Levels = tuple[str, ...]
#: The rows of a study at the levels of the strata asked about, by those levels.
RowsByLevels = Callable[[str], Mapping[Levels, Cell]]


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


def told_at_other_levels(
    review: Review, cells: list[Cell], levels: Levels, rows_of: RowsByLevels
) -> dict[str, str]:
    """Return the studies whose patients another study tells at other levels of the strata.

    The mixed-or-not-stated level gives way to a named one; of two named levels the study named
    in the extract is kept, else the larger, else the one that declares the overlap. So no patient
    stands in two levels of one stratum, nor in two crossings of several, which go in the order of
    :func:`evsyn.cells.levels.precedence`.

    Parameters
    ----------
    review : Review
        The review, whose extracts declare the overlaps.
    cells : list of Cell
        Rows at these levels.
    levels : tuple of str
        A level of each stratum asked about.
    rows_of : callable
        Gives the rows of a study at all levels of those strata.
    """
    here = {cell.study: cell for cell in cells}
    lost: dict[str, str] = {}
    settled: set[frozenset[str]] = set()
    for study in review.studies:
        for overlap in study.overlaps:
            pair = frozenset((study.study, overlap.study))
            if overlap.kind != "certain" or pair in settled:
                continue
            settled.add(pair)
            declared = (study.study, overlap.study)
            for one, other in (declared, declared[::-1]):
                elsewhere = rows_of(other) if one in here and other not in here else {}
                first = one == study.study
                if _gives_way(here.get(one), levels, elsewhere, overlap.keep, first=first):
                    lost[one] = other
    return lost


def _gives_way(
    cell: Cell | None,
    levels: Levels,
    elsewhere: Mapping[Levels, Cell],
    keep: str | None,
    *,
    first: bool,
) -> bool:
    if cell is None or not elsewhere:
        return False
    foremost = max(map(precedence, elsewhere))
    if foremost != precedence(levels):
        return foremost > precedence(levels)
    if keep is not None:
        return keep != cell.study
    total = sum(row.total for at, row in elsewhere.items() if precedence(at) == foremost)
    return total > cell.total or (total == cell.total and not first)
