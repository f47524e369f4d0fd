"""A table of words and numbers for the terminal, readable in 80 columns and in plain ASCII."""

import io
from collections.abc import Sequence
from typing import TYPE_CHECKING, Literal

if TYPE_CHECKING:
    from rich.table import Table

WIDTH = 80
#: Characters the first column keeps before the others take theirs.
FIRST_COLUMN = 20
#: A first column that keeps its room can push a table beyond the width asked for, where its last
#: letters would be cut off; so up to this much less is asked for, until it fits.
_GIVES_WAY = 20


def plain_table(
    headings: Sequence[str],
    rows: Sequence[Sequence[str]],
    *,
    right: Sequence[int] = (),
    whole: Sequence[int] = (),
    width: int = WIDTH,
) -> str:
    """Lay out a table; long words wrap inside their column.

    Parameters
    ----------
    headings : sequence of str
        One heading a column, in words.
    rows : sequence of sequence of str
        The cells.
    right : sequence of int
        Columns set flush right.
    whole : sequence of int
        Columns that are never folded.
    width : int
        Width in characters.
    """
    from rich.box import Box
    from rich.table import Table

    ruled = Box("    \n    \n -- \n    \n    \n    \n    \n    \n", ascii=True)
    table = Table(box=ruled, show_edge=False, pad_edge=False, padding=0)
    for number, heading in enumerate(headings):
        side: Literal["left", "right"] = "right" if number in right else "left"
        least = min(FIRST_COLUMN, max((len(row[0]) for row in rows), default=0))
        table.add_column(
            heading,
            justify=side,
            overflow="fold",
            no_wrap=number in whole,
            min_width=least if number == 0 and not whole else None,
        )
    for row in rows:
        table.add_row(*row)
    for asked in range(width, width - _GIVES_WAY, -1):
        lines = _printed(table, asked)
        # The rule under the headings holds no letter, so it alone may be cut.
        if all(len(line) <= width or not line.strip("-") for line in lines):
            break
    return "\n".join(line[:width] if not line.strip("-") else line for line in lines)


def _printed(table: "Table", width: int) -> list[str]:
    """Return the lines of a table about as wide as asked, none of them cut off."""
    from rich.console import Console

    page = io.StringIO()
    console = Console(
        file=page,
        width=width + _GIVES_WAY,
        color_system=None,
        markup=False,
        highlight=False,
        emoji=False,
    )
    console.print(table, width=width)
    return [line.rstrip() for line in page.getvalue().rstrip().splitlines()]
