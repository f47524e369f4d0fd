"""The forest plot: content, layout, and nothing drawn."""

from evsyn.figures.forest.build import PoolToDraw, forest_content, unit_line
from evsyn.figures.forest.content import (
    Band,
    ForestContent,
    StudyLine,
    Summary,
    UnitLine,
)
from evsyn.figures.forest.layout import forest_layout
from evsyn.figures.invented import Invented
from evsyn.wording.forest import ForestWords

__all__ = [
    "Band",
    "ForestContent",
    "ForestWords",
    "Invented",
    "PoolToDraw",
    "StudyLine",
    "Summary",
    "UnitLine",
    "forest_content",
    "forest_layout",
    "unit_line",
]
