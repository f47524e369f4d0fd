"""A table of words and numbers for the terminal, readable in 80 columns and in plain ASCII."""

import io
from collections.abc import Sequence

WIDTH = 80


def plain_table(
    headings: Sequence[str],
    rows: Sequence[Sequence[str]],
    *,
    right: Sequence[int] = (),
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
    width : int
        Width in characters.
    """
    from rich.box import Box
    from rich.console import Console
    from rich.table import Table

    ruled = Box("    \n    \n -- \n    \n    \n    \n    \n    \n", ascii=True)
    table = Table(box=ruled, show_edge=False, pad_edge=False, padding=(0, 1, 0, 0))
    for number, heading in enumerate(headings):
        side = "right" if number in right else "left"
        table.add_column(heading, justify=side, vertical="bottom", overflow="fold")
    for row in rows:
        table.add_row(*row)
    page = io.StringIO()
    console = Console(
        file=page, width=width, color_system=None, markup=False, highlight=False, emoji=False
    )
    console.print(table)
    return "\n".join(line.rstrip() for line in page.getvalue().rstrip().splitlines())
