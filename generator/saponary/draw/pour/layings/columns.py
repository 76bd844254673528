"""Columns: portions poured side by side, left to right, upright or leaning."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from shapely.geometry import Polygon

from saponary.draw.pour.laying import Filling, Patch, patch
from saponary.draw.pour.seed import Array, wave
from saponary.quantity.roots import rising_root

FAR = 1000.0
UNDER = 1.5


@dataclass(frozen=True)
class _Wall:
    """The side of a column: a wavering line that is moved sideways until the areas are right."""

    ys: Array
    line: Array

    def beside(self, place: float, edge: float) -> Polygon:
        """All that lies between the wall at `place` and a far edge."""
        wall = np.column_stack([self.line + place, self.ys])
        return Polygon(np.concatenate([wall, [[edge, self.ys[-1]], [edge, self.ys[0]]]]))


def columns(filling: Filling) -> list[Patch]:
    """Each wall is placed so that what stands left of it has the area of the columns so far."""
    if not filling.loads:
        return []
    left, bottom, right, top = filling.zone.bounds
    ys = np.arange(filling.above.bounds[1] - 1.0, filling.above.bounds[3] + 1.7, 0.7)
    lean = math.tan(math.radians(filling.tilt)) * (ys - (bottom + top) / 2)
    widest = (right - left) / sum(load.share for load in filling.loads)
    spread = float(np.max(np.abs(lean))) + 2.0
    sides: list[tuple[_Wall, float]] = []
    filled = 0.0
    for i, (before, load) in enumerate(pairwise(filling.loads)):
        filled += filling.target(before)
        amplitude = min(0.9, 0.16 * widest * min(before.share, load.share))
        wavering = wave(ys, 60.0, amplitude, *filling.words, before.name, load.name, str(i))
        wall = _Wall(ys, lean + wavering)
        place = _place(filling, wall, left - spread, right + spread, filled)
        sides.append((wall, place))
    painted = [patch(filling.step, filling.loads[0].name, filling.above)]
    for i, (wall, place) in enumerate(sides):
        shape = filling.above.intersection(wall.beside(place, FAR))
        if i + 1 < len(sides):
            # A little of it runs on under the next column.
            shape = shape.intersection(sides[i + 1][0].beside(sides[i + 1][1] + UNDER, -FAR))
        painted.append(patch(filling.step, filling.loads[i + 1].name, shape))
    return painted


def _place(filling: Filling, wall: _Wall, low: float, high: float, area: float) -> float:
    def filled(place: float) -> float:
        return filling.free(wall.beside(place, -FAR))

    return rising_root(filled, low, high, area, near=2e-3)
