"""Studies as bubbles over one number, with the line of a regression."""

from evsyn.figures.bubbles.content import Bubble, BubbleContent, LinePlace
from evsyn.figures.bubbles.layout import bubble_layout

__all__ = ["Bubble", "BubbleContent", "LinePlace", "bubble_layout"]
