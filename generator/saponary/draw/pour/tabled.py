"""A line given by a table of its slope, so that its height is the exact integral of what is read off as its slope."""

from __future__ import annotations

import numpy as np

from saponary.draw.pour.seed import Array


class Tabled:
    """A line over a span from 0, nought at its beginning; its slope is straight between the places of the table."""

    def __init__(self, span: float, slopes: Array) -> None:
        self.cells = len(slopes) - 1
        self.cell = span / self.cells
        self._slopes, self._changes = slopes[:-1], np.diff(slopes)
        steps = (slopes[1:] + slopes[:-1]) * (self.cell / 2.0)
        self._heights: Array = np.concatenate([[0.0], np.cumsum(steps[:-1])])

    def at(self, x: Array) -> tuple[Array, Array]:
        """Height and slope at each place; beyond an end they are those of the end."""
        place = np.minimum(np.maximum(x * (1.0 / self.cell), 0.0), self.cells)
        index = np.minimum(place, self.cells - 1).astype(np.int64)
        place -= index
        here = self._slopes.take(index)
        slope = self._changes.take(index)
        slope *= place
        slope += here
        here += slope
        place *= self.cell / 2.0
        here *= place
        here += self._heights.take(index)
        return here, slope
