"""One side to carry to the podium, sorted by the questions the floor asks."""

from evsyn.reporting.pocket.layout import pocket_layout
from evsyn.reporting.pocket.text import pocket_text

__all__ = ["pocket_layout", "pocket_text"]
