"""A chart in which the batter under the tool is a rectangle, whatever its shape.

Between a lower profile l(x) and an upper one t(x), with H their mean distance:

    X = (1/H) ∫ (t − l) dx,   Y = H (y − l) / (t − l).

The Jacobian is one, so areas in the chart are areas in the drawing; upright lines stay upright.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from saponary.draw.pour.seed import Array

THIN = 0.05
FINER = 4
"""Steps of the table of X to one of the profiles', for the ends of a round mould are steep."""


@dataclass(frozen=True)
class Chart:
    """The region between two profiles over `xs`, as a rectangle `width` by `height`."""

    xs: Array
    low: Array
    thick: Array
    across: Array  # X at each of `xs`
    width: float
    height: float

    def like(self, other: Chart) -> bool:
        """Whether both are of one region."""
        return all(
            np.array_equal(mine, theirs)
            for mine, theirs in ((self.xs, other.xs), (self.low, other.low), (self.thick, other.thick))
        )

    def into(self, points: Array) -> Array:
        """Points of the drawing in the chart. Points outside come out outside: beyond 0 or beyond `height`."""
        x, y = points[:, 0], points[:, 1]
        thick = np.maximum(np.interp(x, self.xs, self.thick), THIN)
        up = self.height * (y - np.interp(x, self.xs, self.low)) / thick
        return np.column_stack([np.interp(x, self.xs, self.across), up])

    def across_from_left(self, x: Array) -> Array:
        """X of places counted from the region's left end; beyond both ends they go on as they are."""
        within: Array = np.minimum(np.maximum(x, 0.0), self.width)
        placed: Array = np.interp(within + float(self.xs[0]), self.xs, self.across) + (x - within)
        return placed

    def out(self, points: Array) -> Array:
        """Points of the chart back in the drawing."""
        x = np.interp(points[:, 0], self.across, self.xs)
        thick = np.maximum(np.interp(x, self.xs, self.thick), THIN)
        return np.column_stack([x, np.interp(x, self.xs, self.low) + points[:, 1] * thick / self.height])


def chart(xs: Array, lower: Array, upper: Array) -> Chart | None:
    """The chart of a region; None where it is thin in the middle, so that it falls into parts."""
    fine = np.interp(np.arange((len(xs) - 1) * FINER + 1) / FINER, np.arange(len(xs)), xs)
    low, high = np.interp(fine, xs, lower), np.interp(fine, xs, upper)
    thick = high - low
    there = np.flatnonzero(thick > 4 * THIN)
    if len(there) < 8:
        return None
    first, last = int(there[0]), int(there[-1])
    if len(there) != last - first + 1:
        return None
    fine, low, thick = fine[first : last + 1], low[first : last + 1], thick[first : last + 1]
    slices = np.diff(fine) * (thick[1:] + thick[:-1]) / 2
    width = float(fine[-1] - fine[0])
    area = float(slices.sum())
    height = area / width
    across = np.concatenate([[0.0], np.cumsum(slices)]) / height
    return Chart(fine, low, thick, across, width, height)
