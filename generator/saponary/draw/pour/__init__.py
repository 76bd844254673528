"""The pour drawing: what a cut bar will look like, in areas true to the volumes poured.

`drawing.draw_pair` draws; it is not imported here, for its libraries cost more than a whole
build in which no drawing is out of date.
"""

from __future__ import annotations

from saponary.draw.pour.pair import LegendEntry, PourDrawing
from saponary.draw.pour.scene import DrawnExtra, DrawnPortion, Face, Scene, Shade, When

__all__ = ["DrawnExtra", "DrawnPortion", "Face", "LegendEntry", "PourDrawing", "Scene", "Shade", "When"]
