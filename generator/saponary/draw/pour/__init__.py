"""The pour drawing: what a cut bar will look like, in areas true to the volumes poured."""

from __future__ import annotations

from saponary.draw.pour.drawing import PourDrawing, draw_pair
from saponary.draw.pour.legend import LegendEntry
from saponary.draw.pour.scene import DrawnExtra, DrawnPortion, Face, Scene, Shade, When

__all__ = [
    "DrawnExtra",
    "DrawnPortion",
    "Face",
    "LegendEntry",
    "PourDrawing",
    "Scene",
    "Shade",
    "When",
    "draw_pair",
]
