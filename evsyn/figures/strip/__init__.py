"""The count strip: content, layout, and nothing drawn."""

from evsyn.figures.strip.build import columns, verdicts
from evsyn.figures.strip.content import Columns, Strip, StripContent
from evsyn.figures.strip.layout import strip_layout
from evsyn.wording.strip import StripWords

__all__ = [
    "Columns",
    "Strip",
    "StripContent",
    "StripWords",
    "columns",
    "strip_layout",
    "verdicts",
]
