"""One sentence that says why lines clash."""

from collections.abc import Sequence

import numpy as np

from evsyn.extraction.flow.line import Line
from evsyn.extraction.flow.search import extreme
from evsyn.extraction.flow.system import System


def reason(system: System, lines: Sequence[Line], clash: Sequence[int]) -> str:
    """Say what the other lines of a clash leave to the last of them.

    Parameters
    ----------
    system : System
        The rows.
    lines : sequence of Line
        All lines, in the order of the system.
    clash : sequence of int
        Numbers of lines that cannot all hold, while any fewer of them can.

    Returns
    -------
    str
        As 'If the others hold, line 62 can say at most 2.'; empty where no bound alone shows it,
        and where there is no clash.

    Raises
    ------
    UnsettledError
        If the search was not finished.
    """
    if len(clash) < 2:
        return ""
    last = max(clash, key=lambda number: (lines[number].source.line, number))
    subject = f"If the others hold, {lines[last].place or 'the last'} can say"
    others = [number for number in clash if number != last]
    for row in np.flatnonzero(system.owner == last):
        factors, low, high = system.matrix[[row]].toarray()[0], system.low[row], system.high[row]
        largest = extreme(system, others, factors, smallest=False)
        if largest is not None and largest < low:
            return f"{subject} at most {largest}."
        smallest = extreme(system, others, factors, smallest=True)
        if smallest is not None and smallest > high:
            return f"{subject} at least {smallest}."
    return ""
