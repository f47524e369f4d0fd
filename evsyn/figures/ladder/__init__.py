"""Pooled answers one under another, against the answer as it stands."""

from evsyn.figures.ladder.content import LadderContent, Rung
from evsyn.figures.ladder.layout import ladder_layout

__all__ = ["LadderContent", "Rung", "ladder_layout"]
