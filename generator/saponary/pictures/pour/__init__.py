"""The pour drawing: what a cut bar will look like, in areas true to the volumes poured."""

from __future__ import annotations

from saponary.pictures.pour.drawing import PourDrawing, draw, draw_pair
from saponary.pictures.pour.legend import LegendEntry
from saponary.pictures.pour.scene import DrawnExtra, DrawnPortion, Face, Scene, Shade, When
from saponary.pictures.pour.shares import DepthReading, pour_shares

__all__ = [
    "DepthReading",
    "DrawnExtra",
    "DrawnPortion",
    "Face",
    "LegendEntry",
    "PourDrawing",
    "Scene",
    "Shade",
    "When",
    "draw",
    "draw_pair",
    "pour_shares",
]
