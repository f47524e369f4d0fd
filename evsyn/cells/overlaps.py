"""Keep studies apart that certainly share patients: one of them enters a pool."""

from collections.abc import Callable, Mapping

from evsyn.cells.cell import Cell
from evsyn.extraction.review import Review
from evsyn.terms import UNPLACED

#: The rows of a study at the levels of a stratum, by level.
RowsByLevel = Callable[[str], Mapping[str, Cell]]


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
    review: Review, cells: list[Cell], level: str, rows_of: RowsByLevel
) -> dict[str, str]:
    """Return the studies whose patients another study tells at another level of the stratum.

    The mixed-or-not-stated level gives way to a named one; of two named levels the study named
    in the extract is kept, else the larger. So no patient stands in two levels of one stratum.

    Parameters
    ----------
    review : Review
        The review, whose extracts declare the overlaps.
    cells : list of Cell
        Rows at this level.
    level : str
        This level.
    rows_of : callable
        Gives the rows of a study at every level of the stratum.
    """
    here = {cell.study: cell for cell in cells}
    lost: dict[str, str] = {}
    for study in review.studies:
        for overlap in study.overlaps:
            if overlap.kind != "certain":
                continue
            pair = (study.study, overlap.study)
            for one, other in (pair, pair[::-1]):
                elsewhere = rows_of(other) if one in here and other not in here else {}
                if elsewhere and _gives_way(here[one], level, elsewhere, overlap.keep):
                    lost[one] = other
    return lost


def _gives_way(cell: Cell, level: str, elsewhere: Mapping[str, Cell], keep: str | None) -> bool:
    named = [row for name, row in elsewhere.items() if name != UNPLACED]
    if level == UNPLACED:
        return bool(named)
    if not named:
        return False
    if keep is not None:
        return keep != cell.study
    return sum(row.total for row in named) > cell.total
